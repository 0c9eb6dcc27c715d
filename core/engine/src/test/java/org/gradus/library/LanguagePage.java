package org.gradus.library;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.gradus.diagnostic.SourceFile;

/** The files, changes and tests that the language page shows. */
final class LanguagePage {

  /**
   * A fenced block.
   *
   * @param kind the word behind the fence
   * @param line the line of the page on which its text begins
   * @param text what stands in it
   * @param error the text of the error block that follows it at once, if one does
   */
  record Block(String kind, int line, String text, Optional<String> error) {
    @Override
    public String toString() {
      return "line " + line;
    }
  }

  /**
   * A test of a person, with the files it runs on.
   *
   * @param block what is done
   * @param files the files by name, changed by the block before it if that is a change
   */
  record Told(Block block, Map<String, String> files) {
    @Override
    public String toString() {
      return block.toString();
    }
  }

  final List<Block> blocks = new ArrayList<>();
  final Map<String, String> files = new LinkedHashMap<>();

  private LanguagePage(List<String> lines) {
    for (int i = 0; i < lines.size(); i++) {
      if (lines.get(i).startsWith("```")) {
        int end = i + 1 + lines.subList(i + 1, lines.size()).indexOf("```");
        String text = lines.subList(i + 1, end).stream().collect(Collectors.joining("\n"));
        add(lines.get(i).substring(3), i + 2, text);
        i = end;
      }
    }
    for (Block block : blocks) {
      if (block.kind().equals("yaml")) {
        files.put(block.text().lines().findFirst().orElseThrow().substring(2), block.text() + "\n");
      }
    }
  }

  static LanguagePage read() {
    try {
      return new LanguagePage(Files.readAllLines(Path.of("..", "..", "grammar", "LANGUAGE.md")));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void add(String kind, int line, String text) {
    if (kind.equals("error")) {
      Block of = blocks.remove(blocks.size() - 1);
      blocks.add(new Block(of.kind(), of.line(), of.text(), Optional.of(text)));
    } else {
      blocks.add(new Block(kind, line, text, Optional.empty()));
    }
  }

  List<Block> changes() {
    return blocks.stream().filter(block -> block.kind().equals("diff")).toList();
  }

  /** The tests; one that stands right behind a change is made with the changed files. */
  List<Told> tests() {
    List<Told> tests = new ArrayList<>();
    for (int i = 0; i < blocks.size(); i++) {
      if (blocks.get(i).kind().equals("session")) {
        Block before = blocks.get(i - 1);
        boolean changed = before.kind().equals("diff") && before.error().isEmpty();
        tests.add(new Told(blocks.get(i), changed ? changed(before) : files));
      }
    }
    return tests;
  }

  /** The files as a change makes them. */
  Map<String, String> changed(Block change) {
    Map<String, String> all = new LinkedHashMap<>(files);
    String name = "";
    StringBuilder before = new StringBuilder();
    StringBuilder after = new StringBuilder();
    for (String line : (change.text() + "\n.").split("\n", -1)) {
      char sign = line.charAt(0);
      if (sign != '-' && sign != '+' && sign != ' ') {
        put(all, name, before.toString(), after.toString());
        name = line;
        before.setLength(0);
        after.setLength(0);
        continue;
      }
      if (sign != '+') {
        before.append(line.substring(1)).append('\n');
      }
      if (sign != '-') {
        after.append(line.substring(1)).append('\n');
      }
    }
    return all;
  }

  private static void put(Map<String, String> all, String name, String before, String after) {
    if (!name.isEmpty()) {
      String old = all.getOrDefault(name, "");
      all.put(name, before.isEmpty() ? old + after : Meadow.edit(old, before, after));
    }
  }

  static Library library(Map<String, String> files) {
    return Library.of(
        files.entrySet().stream()
            .map(file -> SourceFile.of(file.getKey(), file.getValue()))
            .toList());
  }
}
