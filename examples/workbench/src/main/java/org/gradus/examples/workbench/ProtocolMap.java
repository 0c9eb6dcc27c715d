package org.gradus.examples.workbench;

import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.gradus.protocol.Ergometer;
import org.gradus.protocol.EstimateLine;
import org.gradus.protocol.LoadComponent;
import org.gradus.protocol.LoadRange;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Question;
import org.gradus.protocol.Recovery;
import org.gradus.protocol.Setting;
import org.gradus.protocol.Sign;
import org.gradus.protocol.Signal;
import org.gradus.protocol.Stage;

/** A whole protocol as names and values, for programs. Times are in seconds. */
final class ProtocolMap {

  private final Protocol protocol;
  private final StageTableText table;

  ProtocolMap(Protocol protocol) {
    this.protocol = protocol;
    this.table = new StageTableText(protocol);
  }

  Map<String, Object> map() {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("id", protocol.id());
    map.put("version", protocol.heading().version());
    map.put("title", protocol.heading().title());
    map.put("language", protocol.heading().language());
    map.put("ergometer", protocol.heading().ergometer());
    map.put("doneOn", ergometer(protocol.instruments().ergometer()));
    map.put("purpose", protocol.heading().purpose());
    map.put("fingerprint", protocol.heading().digest());
    map.put("youngest", protocol.eligibility().youngest());
    map.put("oldest", protocol.eligibility().oldest());
    map.put("needs", protocol.eligibility().needs().stream().sorted().toList());
    map.put("outside", Named.word(protocol.eligibility().outside()));
    map.put("longest", protocol.longest().toSeconds());
    map.put("settings", Named.list(protocol.settings().values(), ProtocolMap::setting));
    map.put("inputs", Named.list(protocol.instruments().questions().values(), this::input));
    map.put("signals", Named.list(protocol.instruments().signals().values(), ProtocolMap::signal));
    map.put(
        "loads", Named.list(protocol.instruments().components().values(), ProtocolMap::component));
    map.put("loadRanges", Named.list(protocol.instruments().loads().values(), ProtocolMap::load));
    map.put("signs", Named.list(protocol.instruments().signs().values(), ProtocolMap::sign));
    map.put("definitions", Named.list(Defined.of(protocol), ProtocolMap::defined));
    map.put("baselines", Named.list(protocol.baselines(), WhatIsRead::map));
    map.put("measure", Named.list(protocol.schedule().lines(), ProtocolMap::measure));
    map.put("stages", Named.list(protocol.stages(), this::stage));
    Map<String, Object> rules = new LinkedHashMap<>();
    rules.put("before", Named.list(protocol.rules().before(), ProtocolMap::rule));
    rules.put("anyTime", Named.list(protocol.rules().anyTime(), ProtocolMap::rule));
    rules.put("stageEnd", Named.list(protocol.rules().stageEnd(), ProtocolMap::rule));
    rules.put("recovery", Named.list(protocol.rules().recovery(), ProtocolMap::rule));
    rules.put("result", Named.list(protocol.rules().result(), ProtocolMap::rule));
    map.put("rules", rules);
    protocol.recovery().ifPresent(recovery -> map.put("recovery", recovery(recovery)));
    map.put(
        "costs",
        Named.list(
            protocol.assessment().costs(),
            cost ->
                Named.sourced(Named.values("id", cost.equation().id()), cost.equation().source())));
    map.put("estimates", Named.list(protocol.assessment().estimates(), ProtocolMap::estimate));
    map.put("results", Named.list(protocol.assessment().results(), ProtocolMap::estimate));
    map.put("cautions", protocol.heading().cautions());
    map.put("sources", Named.list(protocol.heading().sources(), Named::source));
    return map;
  }

  private static Map<String, Object> ergometer(Ergometer on) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("id", on.id());
    map.put("title", on.title());
    map.put("loads", on.loads());
    on.posture().ifPresent(posture -> map.put("posture", posture));
    map.put("carriesBodyMass", on.carriesBodyMass());
    return Named.sourced(map, on.source());
  }

  private static Map<String, Object> component(LoadComponent load) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("name", load.name());
    map.put("title", load.title());
    map.put("unit", load.unit().symbol());
    return Named.sourced(map, load.source());
  }

  private static Map<String, Object> setting(Setting setting) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("name", setting.name());
    map.put("value", setting.value().toString());
    setting.range().ifPresent(range -> map.put("range", range.toString()));
    if (!setting.options().isEmpty()) {
      map.put(
          "options",
          Named.list(
              setting.options(),
              option ->
                  Named.sourced(
                      Named.values("value", option.value().toString()), option.source())));
    }
    return Named.sourced(map, setting.source());
  }

  private Map<String, Object> input(Question question) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("name", question.name());
    map.put("ask", question.prompt());
    map.put("kind", WhatIsRead.kind(question.type()));
    if (!question.allowed().isEmpty()) {
      map.put("allowed", question.allowed());
    }
    map.put("needed", protocol.neededAnswers().contains(question.name()));
    return Named.sourced(map, question.source());
  }

  private static Map<String, Object> signal(Signal signal) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("name", signal.name());
    map.put("kind", WhatIsRead.kind(signal.type()));
    signal.range().ifPresent(range -> map.put("range", range.toString()));
    signal.step().ifPresent(step -> map.put("step", step.toString()));
    return Named.sourced(map, signal.source());
  }

  private static Map<String, Object> load(LoadRange load) {
    return Named.sourced(
        Named.values("name", load.name(), "range", load.range().toString()), load.source());
  }

  private static Map<String, Object> sign(Sign sign) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("name", sign.name());
    map.put("ask", sign.prompt());
    map.put("asked", sign.asked());
    sign.top().ifPresent(top -> map.put("highestGrade", top));
    return map;
  }

  private static Map<String, Object> defined(Defined defined) {
    return Named.sourced(
        Named.values("name", defined.name(), "text", defined.text()), defined.source());
  }

  private static Map<String, Object> measure(MeasureLine line) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("read", line.signals());
    map.put("when", WhatIsRead.when(line.timing()));
    time(map, "over", line.over());
    time(map, "takes", line.takes());
    time(map, "within", line.within());
    time(map, "late", line.late());
    line.validFor().ifPresent(time -> time(map, "validFor", time));
    map.put("ifMissing", Named.word(line.ifMissing()));
    line.scale().ifPresent(scale -> map.put("scale", scale));
    line.named().ifPresent(name -> map.put("as", name));
    if (!line.in().isEmpty()) {
      map.put("in", line.in());
    }
    return map;
  }

  private Map<String, Object> stage(Stage stage) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("id", stage.id());
    map.put("seconds", stage.lasts().toSeconds());
    map.put("untilDone", stage.untilDone());
    map.put("warmUp", stage.warmUp());
    map.put("pause", stage.pause());
    Map<String, Object> loads = new LinkedHashMap<>();
    stage.loads().forEach(load -> loads.put(load.name(), table.load(load)));
    map.put("loads", loads);
    Optional<Double> uptake = table.uptake(stage);
    uptake.ifPresent(
        value ->
            map.put(
                "uptake", Named.values("amount", Math.rint(value * 10) / 10, "unit", "mL/kg/min")));
    stage.ownRules().ifPresent(rules -> map.put("stageEnd", Named.list(rules, ProtocolMap::rule)));
    return Named.sourced(map, stage.source());
  }

  private static Map<String, Object> rule(ProtocolRule rule) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("id", rule.id());
    map.put("rule", rule.rule().text());
    Named.put(map, "why", rule.why());
    Named.put(map, "do", rule.instruction());
    rule.confirm().ifPresent(time -> time(map, "confirm", time));
    if (rule.stagesOnly()) {
      map.put("during", "stages");
    }
    if (rule.isStop()) {
      map.put("alarming", rule.alarming());
    }
    return Named.sourced(map, rule.source());
  }

  private Map<String, Object> recovery(Recovery recovery) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("stages", Named.list(recovery.stages(), this::stage));
    map.put("measure", Named.list(recovery.schedule().lines(), ProtocolMap::measure));
    map.put("atMost", recovery.atMost().toSeconds());
    return map;
  }

  private static Map<String, Object> estimate(EstimateLine estimate) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("id", estimate.id());
    map.put("from", estimate.from().span().text());
    estimate.onlyWhen().ifPresent(when -> map.put("onlyWhen", when.span().text()));
    map.put(estimate.shown().isEmpty() ? "vo2max" : "value", estimate.formula().text());
    estimate.shown().ifPresent(shown -> map.put("title", shown.title()));
    estimate.shown().ifPresent(shown -> map.put("unit", shown.unit().symbol()));
    estimate.leastSpan().ifPresent(span -> map.put("leastSpan", span.text()));
    estimate
        .error()
        .ifPresent(
            error ->
                map.put(
                    "error",
                    Named.sourced(
                        Named.values(
                            "sd", error.sd().toString(), "covers", Named.word(error.covers())),
                        error.source())));
    map.put("cautions", estimate.cautions());
    return Named.sourced(map, estimate.source());
  }

  private static void time(Map<String, Object> map, String name, Duration time) {
    if (!time.isZero()) {
      map.put(name, time.toSeconds());
    }
  }
}
