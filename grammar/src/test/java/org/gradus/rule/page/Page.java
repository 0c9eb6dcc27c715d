package org.gradus.rule.page;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** The language page, cut into its fenced blocks. */
record Page(List<String> lines, List<Block> blocks) {

  /**
   * A fenced block.
   *
   * @param kind the word behind the fence
   * @param line the line of the page on which its text begins
   * @param section the heading it stands under
   * @param text what stands in it
   * @param error the text of the error block that follows it at once, if one does
   */
  record Block(String kind, int line, String section, String text, Optional<String> error) {
    @Override
    public String toString() {
      return "line " + line + ", " + section;
    }
  }

  static Page read(Path file) {
    try {
      List<String> lines = Files.readAllLines(file);
      return new Page(lines, blocks(lines));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  List<Block> of(String... kinds) {
    return blocks.stream().filter(block -> List.of(kinds).contains(block.kind())).toList();
  }

  private static List<Block> blocks(List<String> lines) {
    List<Block> blocks = new ArrayList<>();
    String section = "";
    for (int i = 0; i < lines.size(); i++) {
      if (lines.get(i).startsWith("#")) {
        section = lines.get(i).replaceFirst("#+ ", "");
      } else if (lines.get(i).startsWith("```")) {
        int end = i + 1 + lines.subList(i + 1, lines.size()).indexOf("```");
        String text = String.join("\n", lines.subList(i + 1, end));
        String kind = lines.get(i).substring(3);
        if (kind.equals("error")) {
          Block of = blocks.remove(blocks.size() - 1);
          blocks.add(new Block(of.kind(), of.line(), of.section(), of.text(), Optional.of(text)));
        } else {
          blocks.add(new Block(kind, i + 2, section, text, Optional.empty()));
        }
        i = end;
      }
    }
    return blocks;
  }
}
