package org.gradus.examples.workbench;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.gradus.history.Json;
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

  private static final int NARROWEST_TITLE = 30;

  @Mixin private CommandContext context = new CommandContext();

  @Parameters(paramLabel = "WORD", arity = "0..*", description = "Words to look for.")
  private List<String> words = new ArrayList<>();

  @Option(names = "--json", description = "Write the list as JSON.")
  private boolean json;

  @Override
  public Integer call() {
    Library library = context.library();
    List<Heading> found =
        words.isEmpty()
            ? library.protocols().stream().map(id -> library.protocol(id).heading()).toList()
            : library.find(String.join(" ", words));
    if (json) {
      context.out().println(Json.write(found.stream().map(ListCommand::map).toList()));
    } else {
      print(found);
    }
    return found.isEmpty() ? Workbench.FOUND : Workbench.WELL;
  }

  // Sources mention much in passing: what only they have comes last.
  private void print(List<Heading> found) {
    int width = found.stream().mapToInt(one -> one.id().length()).max().orElse(0);
    Map<Boolean, List<Heading>> byTitle =
        found.stream().collect(Collectors.partitioningBy(this::speaksOf));
    byTitle.getOrDefault(true, List.of()).forEach(one -> print(one, width));
    List<Heading> others = byTitle.getOrDefault(false, List.of());
    if (!others.isEmpty()) {
      context.line("found in their sources only:");
      others.forEach(one -> print(one, width));
    }
    if (found.isEmpty()) {
      context.line("no protocol found; use fewer or other words");
    }
  }

  private boolean speaksOf(Heading one) {
    String said =
        String.join(" ", one.id(), one.title(), one.ergometer(), one.purpose())
            .toLowerCase(Locale.ROOT);
    return words.stream().allMatch(word -> said.contains(word.toLowerCase(Locale.ROOT)));
  }

  private void print(Heading one, int width) {
    boolean beside = context.columns() == 0 || context.columns() >= width + NARROWEST_TITLE;
    context.line(
        beside
            ? String.format(Locale.ROOT, "%-" + width + "s", one.id()) + "  " + one.title()
            : one.id() + "\n  " + one.title());
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
