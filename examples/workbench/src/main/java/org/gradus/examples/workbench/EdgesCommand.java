package org.gradus.examples.workbench;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import org.gradus.diagnostic.Suggestion;
import org.gradus.history.Json;
import org.gradus.review.EdgeCase;
import org.gradus.review.EdgeCases;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Prints the edges of all rules. */
@Command(
    name = "edges",
    description = "Prints the readings below, on and above the edge of every comparison.")
final class EdgesCommand implements Callable<Integer> {

  @Mixin private CommandContext context = new CommandContext();

  @Mixin private Settings settings = new Settings();

  @Parameters(paramLabel = "ID", description = "The protocol.")
  private String id = "";

  @Option(names = "--rule", paramLabel = "RULE", description = "Only the edges of this rule.")
  private String rule = "";

  @Option(names = "--json", description = "Write the edges as JSON.")
  private boolean json;

  @Override
  public Integer call() {
    List<EdgeCase> all = EdgeCases.of(settings.in(context.protocol(id)));
    Set<String> rules = new TreeSet<>();
    all.forEach(edge -> rules.add(edge.rule()));
    if (all.isEmpty()) {
      context.complain("no rule of " + id + " compares anything");
      return Workbench.FOUND;
    }
    context.refuseUnless(
        rule.isEmpty() || rules.contains(rule),
        "there are no edges of a rule "
            + rule
            + "; "
            + Suggestion.help(rule, rules, "there are some of " + String.join(", ", rules)));
    List<EdgeCase> edges =
        all.stream().filter(edge -> rule.isEmpty() || edge.rule().equals(rule)).toList();
    if (json) {
      context.out().println(Json.write(edges.stream().map(EdgesCommand::map).toList()));
    } else {
      context.line(EdgeCases.table(edges));
    }
    return Workbench.WELL;
  }

  private static Map<String, Object> map(EdgeCase edge) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("rule", edge.rule());
    map.put("group", edge.group());
    map.put("moment", edge.moment());
    map.put("comparison", edge.comparison());
    map.put("line", edge.where().line());
    map.put("subject", edge.subject());
    map.put("value", edge.value().toString());
    map.put("side", edge.side().name().toLowerCase(Locale.ROOT));
    map.put("holds", edge.holds().name().toLowerCase(Locale.ROOT));
    map.put("decides", edge.decides());
    map.put("others", edge.others());
    return map;
  }
}
