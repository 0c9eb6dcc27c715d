package org.gradus.examples.workbench;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.gradus.library.Library;
import org.gradus.protocol.Heading;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Lists protocols, or finds some by words. */
@Command(
    name = "list",
    description =
        "Lists protocols; with words, those whose id, title, ergometer or sources have them.")
final class ListCommand implements Callable<Integer> {

  @Mixin private Shelf shelf = new Shelf();

  @Parameters(paramLabel = "WORD", arity = "0..*", description = "Words to look for.")
  private List<String> words = new ArrayList<>();

  @Option(names = "--json", description = "Write the list as JSON.")
  private boolean json;

  @Override
  public Integer call() {
    Library library = shelf.library();
    List<Heading> found =
        words.isEmpty()
            ? library.protocols().stream().map(id -> library.protocol(id).heading()).toList()
            : library.find(String.join(" ", words));
    if (json) {
      shelf.out().println(Json.of(found.stream().map(ListCommand::map).toList()));
    } else {
      int width = found.stream().mapToInt(one -> one.id().length()).max().orElse(0);
      for (Heading one : found) {
        String id = String.format(Locale.ROOT, "%-" + width + "s", one.id());
        shelf.out().println(id + "  " + one.title());
      }
      if (found.isEmpty()) {
        shelf.out().println("nothing found");
      }
    }
    return found.isEmpty() ? Workbench.FOUND : Workbench.WELL;
  }

  private static Map<String, Object> map(Heading heading) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("id", heading.id());
    map.put("version", heading.version());
    map.put("title", heading.title());
    map.put("ergometer", heading.ergometer());
    map.put("purpose", heading.purpose());
    return map;
  }
}
