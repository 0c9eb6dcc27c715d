package org.gradus.examples.workbench;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Stage;
import org.gradus.session.Times;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Shows a protocol. */
@Command(
    name = "show",
    description =
        "Shows a protocol: its stages as a table and as a picture, its readings and rules.")
final class ShowCommand implements Callable<Integer> {

  private static final int NARROWEST = 40;

  @Mixin private Shelf shelf = new Shelf();

  @Parameters(paramLabel = "ID", description = "The protocol.")
  private String id = "";

  @Option(
      names = "--width",
      paramLabel = "N",
      defaultValue = "${env:COLUMNS:-80}",
      description = "Columns of the terminal (default: COLUMNS, else 80).")
  private int width = 80;

  @Option(names = "--json", description = "Write the stages as JSON.")
  private boolean json;

  @Override
  public Integer call() {
    Protocol protocol = shelf.protocol(id);
    StageTable table = new StageTable(protocol);
    if (json) {
      List<Map<String, Object>> stages = new ArrayList<>();
      protocol.stages().forEach(stage -> stages.add(map(stage, table)));
      shelf.out().println(Json.of(stages));
      return Workbench.WELL;
    }
    int columns = Math.max(NARROWEST, width);
    line(protocol.heading().title() + " (" + protocol + ")");
    line(
        protocol.heading().purpose()
            + ", "
            + protocol.heading().ergometer()
            + ", "
            + protocol.eligibility().youngest()
            + " to "
            + protocol.eligibility().oldest()
            + " years, at most "
            + Times.clock(protocol.longest())
            + " with recovery");
    line("");
    table.rows(columns).forEach(this::line);
    line("");
    line("read in each stage");
    protocol
        .schedule()
        .lines()
        .forEach(
            read ->
                line(
                    "  "
                        + String.join(", ", read.signals())
                        + (read.over().isZero() ? "" : " over " + read.over().toSeconds() + " s")));
    rules("before the test", protocol.rules().before());
    rules("at any time", protocol.rules().anyTime());
    rules("at the end of a stage", protocol.rules().stageEnd());
    for (Stage stage : protocol.stages()) {
      stage.ownRules().ifPresent(own -> rules("at the end of " + stage.id(), own));
    }
    rules("in recovery", protocol.rules().recovery());
    if (!protocol.settings().isEmpty()) {
      line("");
      line("settings");
      protocol
          .settings()
          .forEach(
              (name, setting) ->
                  line(
                      "  "
                          + name
                          + " "
                          + setting.value()
                          + "  (allowed "
                          + setting.allowed()
                          + ")"));
    }
    line("");
    protocol.heading().cautions().forEach(caution -> line("! " + caution));
    return Workbench.WELL;
  }

  private void rules(String where, List<ProtocolRule> rules) {
    if (!rules.isEmpty()) {
      line("");
      line(where);
      rules.forEach(rule -> line("  " + rule.rule().text() + "  (" + rule.id() + ")"));
    }
  }

  private void line(String text) {
    shelf.out().println(text);
  }

  private static Map<String, Object> map(Stage stage, StageTable table) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("id", stage.id());
    map.put("seconds", stage.lasts().toSeconds());
    map.put("warmUp", stage.warmUp());
    map.put(
        "loads",
        stage.loads().stream()
            .collect(
                Collectors.toMap(
                    load -> load.name(), table::load, (a, b) -> b, LinkedHashMap::new)));
    Optional<Double> uptake = table.uptake(stage);
    map.put("uptake", uptake.map(value -> String.format(Locale.ROOT, "%.1f", value)).orElse(""));
    return map;
  }
}
