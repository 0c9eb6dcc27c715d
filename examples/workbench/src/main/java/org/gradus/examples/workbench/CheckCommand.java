package org.gradus.examples.workbench;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.Callable;
import org.gradus.bundled.Bundled;
import org.gradus.cases.Cases;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.history.Json;
import org.gradus.library.Library;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Reads files and says what is wrong with them. */
@Command(
    name = "check",
    description =
        "Checks files, or all files of a folder, and shows each error with its place and remedy.")
final class CheckCommand implements Callable<Integer> {

  @Mixin private CommandContext context = new CommandContext();

  @Parameters(
      paramLabel = "FILE",
      arity = "0..*",
      description = "Files to check, or folders of them.")
  private List<Path> files = new ArrayList<>();

  @Option(names = "--json", description = "Write what is found as JSON.")
  private boolean json;

  @Override
  public Integer call() {
    context.refuseWithoutFolder();
    List<Diagnostic> found = new ArrayList<>();
    List<Path> named = named();
    List<Path> cases = named.stream().filter(CommandContext::isCases).toList();
    int protocols = 0;
    try {
      Library library = library(named);
      protocols = library.protocols().size();
      found.addAll(library.leftOverWords());
    } catch (FileRefused refused) {
      found.addAll(refused.diagnostics());
    }
    for (Path file : cases) {
      try {
        Cases.read(CommandContext.read(file));
      } catch (FileRefused refused) {
        found.addAll(refused.diagnostics());
      }
    }
    if (json) {
      context.out().println(Json.write(found.stream().map(CheckCommand::map).toList()));
    } else if (found.isEmpty()) {
      String played =
          cases.isEmpty()
              ? ""
              : ", "
                  + cases.size()
                  + (cases.size() == 1 ? " file" : " files")
                  + " of cases can be played";
      context.line("no errors: " + protocols + " protocols can be used" + played);
    } else {
      found.forEach(one -> context.line(one + "\n\n"));
      context.line(Complaints.errors(found.size()));
    }
    return found.isEmpty() ? Workbench.WELL : Workbench.REFUSED;
  }

  // The files that were named, of a named folder all, and those of --folder beside them.
  private List<Path> named() {
    Set<Path> all = new LinkedHashSet<>();
    for (Path path : files) {
      all.addAll(Files.isDirectory(path) ? CommandContext.yaml(path) : List.of(path));
    }
    Set<String> names = new HashSet<>();
    all.forEach(path -> names.add(path.getFileName().toString()));
    context.folder().map(CommandContext::yaml).orElse(List.of()).stream()
        .filter(path -> names.add(path.getFileName().toString()))
        .forEach(all::add);
    return List.copyOf(all);
  }

  private Library library(List<Path> named) {
    if (files.isEmpty()) {
      return context.library();
    }
    List<SourceFile> all = new ArrayList<>(Bundled.files());
    named.stream()
        .filter(file -> !CommandContext.isCases(file))
        .forEach(file -> all.add(CommandContext.read(file)));
    return Library.of(all);
  }

  private static Map<String, Object> map(Diagnostic found) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("code", found.code().name());
    map.put("file", found.where().file().name());
    map.put("line", found.where().line());
    map.put("column", found.where().column());
    map.put("message", found.message());
    map.put("help", found.help());
    return map;
  }
}
