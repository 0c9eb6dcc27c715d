package org.gradus.examples.workbench;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.gradus.bundled.Bundled;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Reads files and says what is wrong with them. */
@Command(
    name = "check",
    description = "Reads files, or all of a folder, and says what is wrong with them.")
final class CheckCommand implements Callable<Integer> {

  @Mixin private Shelf shelf = new Shelf();

  @Parameters(paramLabel = "FILE", arity = "0..*", description = "Files to check.")
  private List<Path> files = new ArrayList<>();

  @Option(names = "--json", description = "Write what is found as JSON.")
  private boolean json;

  @Override
  public Integer call() {
    List<Diagnostic> found = new ArrayList<>();
    List<String> ids = new ArrayList<>();
    try {
      Library library = files.isEmpty() ? shelf.library() : library();
      ids.addAll(library.protocols());
    } catch (FileRefused refused) {
      found.addAll(refused.diagnostics());
    }
    if (json) {
      shelf.out().println(Json.of(found.stream().map(CheckCommand::map).toList()));
    } else if (found.isEmpty()) {
      shelf.out().println("all is well: " + ids.size() + " protocols can be used");
    } else {
      found.forEach(one -> shelf.out().println(one + System.lineSeparator()));
      shelf.out().println(found.size() + " to put right");
    }
    return found.isEmpty() ? Workbench.WELL : Workbench.REFUSED;
  }

  private Library library() {
    List<SourceFile> all = new ArrayList<>(Bundled.files());
    files.forEach(file -> all.add(Shelf.read(file)));
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
