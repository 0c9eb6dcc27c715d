package org.gradus.examples.workbench;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;
import org.gradus.knowledge.Citation;
import org.gradus.protocol.Ergometer;
import org.gradus.protocol.EstimateLine;
import org.gradus.protocol.LoadComponent;
import org.gradus.protocol.LoadRange;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Question;
import org.gradus.protocol.Sign;
import org.gradus.protocol.Stage;
import org.gradus.session.Times;

/** A whole protocol as lines for people, in the order of a test. */
final class ProtocolText {

  private final Protocol protocol;
  private final List<String> lines = new ArrayList<>();

  private ProtocolText(Protocol protocol) {
    this.protocol = protocol;
  }

  static List<String> lines(Protocol protocol, int columns) {
    ProtocolText text = new ProtocolText(protocol);
    text.heading();
    text.lines.addAll(new StageTableText(protocol).rows(columns));
    text.test();
    text.figures();
    return text.lines.stream().flatMap(line -> Wrap.lines(line, columns).stream()).toList();
  }

  private void heading() {
    lines.add(protocol.heading().title() + " (" + protocol + ")");
    lines.add(
        protocol.heading().purpose()
            + ", "
            + ergometer(protocol.instruments().ergometer())
            + ", "
            + protocol.eligibility().youngest()
            + " to "
            + protocol.eligibility().oldest()
            + " years, at most "
            + Times.clock(protocol.longest())
            + " with recovery");
    lines.add("");
  }

  private static String ergometer(Ergometer on) {
    String own =
        on.id().replace('-', ' ').equalsIgnoreCase(on.title())
            ? on.id()
            : on.id() + " (" + on.title() + ")";
    return own
        + on.posture().map(posture -> ", " + posture).orElse("")
        + (on.carriesBodyMass() ? ", body mass carried" : "");
  }

  private String load(LoadRange load) {
    String title =
        Optional.ofNullable(protocol.instruments().components().get(load.name()))
            .map(LoadComponent::title)
            .filter(words -> !words.replace(' ', '_').equalsIgnoreCase(load.name()))
            .map(words -> " (" + words + ")")
            .orElse("");
    return load.name() + title + " " + load.range() + from(load.source());
  }

  private void test() {
    part("read before the test", protocol.baselines(), WhatIsRead::line);
    part("asked before the test", protocol.instruments().questions().values(), this::question);
    rules("before the test", protocol.rules().before());
    part("read in each stage", protocol.schedule().lines(), WhatIsRead::line);
    part("asked throughout", protocol.instruments().signs().values(), ProtocolText::sign);
    rules("at any time", protocol.rules().anyTime());
    rules("at the end of a stage", protocol.rules().stageEnd());
    for (Stage stage : protocol.stages()) {
      stage.ownRules().ifPresent(own -> rules("at the end of " + stage.id(), own));
    }
    protocol
        .recovery()
        .ifPresent(
            recovery -> {
              StageTableText table = new StageTableText(protocol);
              String limit = "recovery, at most " + Times.clock(recovery.atMost());
              part(limit, recovery.stages(), table::line);
              part("read in recovery", recovery.schedule().lines(), WhatIsRead::line);
            });
    rules("in recovery", protocol.rules().recovery());
  }

  private void figures() {
    part("estimates", protocol.assessment().estimates(), this::estimate);
    part("results", protocol.assessment().results(), this::estimate);
    rules("of the result", protocol.rules().result());
    part(
        "definitions",
        Defined.of(protocol),
        defined -> defined.name() + " is " + defined.text() + from(defined.source()));
    part(
        "settings",
        protocol.settings().values(),
        setting ->
            setting.name()
                + " "
                + setting.value()
                + "  (allowed "
                + setting.allowed()
                + ")"
                + from(setting.source()));
    part(
        "possible loads",
        protocol.instruments().loads().values().stream().filter(this::isSet).toList(),
        this::load);
    part(
        "sources",
        protocol.heading().sources(),
        source -> (protocol.heading().sources().indexOf(source) + 1) + " " + source.text());
    lines.add("");
    protocol.heading().cautions().forEach(caution -> lines.add("! " + caution));
  }

  // The force follows from a power, where the brake is set by hand.
  private boolean isSet(LoadRange range) {
    boolean force = range.name().equals("brake_force") && protocol.brake().isPresent();
    return force
        || Stream.concat(
                protocol.stages().stream(),
                protocol.recovery().stream().flatMap(after -> after.stages().stream()))
            .flatMap(stage -> stage.loads().stream())
            .anyMatch(load -> load.name().equals(range.name()));
  }

  private void rules(String where, List<ProtocolRule> rules) {
    part(where, rules, rule -> rule.rule().text() + "  (" + rule.id() + ")" + from(rule.source()));
  }

  private <T> void part(String title, Iterable<T> items, Function<T, String> form) {
    boolean first = true;
    for (T item : items) {
      if (first) {
        lines.add("");
        lines.add(title);
        first = false;
      }
      lines.add("  " + form.apply(item));
    }
  }

  private String question(Question question) {
    String needed = protocol.neededAnswers().contains(question.name()) ? ", needed" : "";
    String allowed =
        question.allowed().isEmpty() ? WhatIsRead.kind(question.type()) : question.allowed();
    return question.name() + "  " + question.prompt() + "  (" + allowed + needed + ")";
  }

  private static String sign(Sign sign) {
    String ask = sign.asked() ? sign.prompt() : "not asked, but watched for";
    String graded = sign.top().isPresent() ? "  (0 to " + sign.top().getAsInt() + ")" : "";
    return sign.name() + "  " + ask + graded;
  }

  private String estimate(EstimateLine estimate) {
    String condition =
        estimate.onlyWhen().map(when -> ", only when " + when.span().text()).orElse("");
    String error =
        estimate
            .error()
            .map(
                published ->
                    ", published error "
                        + published.sd()
                        + " ("
                        + published.covers().name().toLowerCase(Locale.ROOT)
                        + ")")
            .orElse("");
    return estimate.id()
        + "  "
        + estimate.formula().text()
        + "  from "
        + estimate.from().span().text()
        + condition
        + error
        + from(estimate.source());
  }

  // By its number below: files that are joined may use one key for two sources.
  private String from(Citation source) {
    if (!source.isNamed()) {
      return "";
    }
    int number = protocol.heading().sources().indexOf(source) + 1;
    return " [" + (number > 0 ? Integer.toString(number) : source.key()) + "]";
  }
}
