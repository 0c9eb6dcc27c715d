package org.gradus.library;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.CostLine;
import org.gradus.protocol.Fact;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Stage;
import org.gradus.rule.Condition;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Cell;
import org.gradus.rule.bounds.Outcomes;
import org.gradus.rule.bounds.Presence;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.check.Type;
import org.gradus.rule.syntax.Action;
import org.gradus.unit.Kind;

/**
 * Evaluates rules abstractly: none may stay unknown when its readings are taken, and each can hold.
 */
final class Totality {

  private final Draft draft;
  private final Protocol protocol;
  private final Problems problems;

  Totality(Draft draft, Protocol protocol, Problems problems) {
    this.draft = draft;
    this.protocol = protocol;
    this.problems = problems;
  }

  void check() {
    for (ProtocolRule rule : protocol.rules().before()) {
      rule.rule().condition().ifPresent(condition -> knownBefore(rule, condition));
    }
    for (ProtocolRule rule : protocol.rules().anyTime()) {
      rule.rule().condition().ifPresent(condition -> measuredAtAll(rule, condition));
    }
    stageEnds();
    loads();
    slowedHeart();
  }

  // Before the first stage nothing is known but the person, the answers and the readings at rest.
  private void knownBefore(ProtocolRule rule, Condition condition) {
    for (Demand demand : sorted(condition)) {
      Fact fact = protocol.wiring().fact(demand);
      boolean known =
          fact instanceof Fact.Attribute
              || fact instanceof Fact.Answer
              || fact instanceof Fact.Baseline
              || fact instanceof Fact.Reported;
      if (!known) {
        String help =
            fact instanceof Fact.Read
                ? "write resting." + demand.subject()
                : "use it in a later group";
        problems.add(
            rule.rule().sentence().span(), Code.G410, demand.subject(), "before the test", help);
      }
    }
  }

  private void measuredAtAll(ProtocolRule rule, Condition condition) {
    for (Demand demand : sorted(condition)) {
      boolean reading =
          demand.aspect() != Aspect.EVER && protocol.wiring().fact(demand) instanceof Fact.Read;
      if (reading && protocol.schedule().lineOf(demand.subject()).isEmpty()) {
        problems.add(rule.rule().sentence().span(), Code.G406, demand.subject(), "any stage");
      }
    }
  }

  private static List<Demand> sorted(Condition condition) {
    return condition.demands().stream()
        .sorted(java.util.Comparator.comparing(Demand::subject).thenComparing(Demand::aspect))
        .toList();
  }

  private void stageEnds() {
    Map<ProtocolRule, Boolean> canHold = new HashMap<>();
    List<ProtocolRule> all = new ArrayList<>();
    for (Stage stage : protocol.stages()) {
      Box box = StageBox.of(protocol, stage);
      for (ProtocolRule rule : protocol.rulesAtEndOf(stage)) {
        if (rule.rule().condition().isPresent()) {
          Outcomes outcomes = stageEnd(rule, rule.rule().condition().get(), stage, box);
          canHold.merge(rule, !outcomes.neverHolds(), Boolean::logicalOr);
          all.add(rule);
        }
      }
    }
    for (ProtocolRule rule : all.stream().distinct().toList()) {
      if (!canHold.getOrDefault(rule, true)) {
        problems.add(rule.rule().sentence().span(), Code.G411, rule.rule().text());
      }
    }
  }

  private Outcomes stageEnd(ProtocolRule rule, Condition condition, Stage stage, Box box) {
    Outcomes outcomes = condition.outcomes(box);
    boolean unmeasured = false;
    for (Demand demand : sorted(condition)) {
      boolean reading = isReading(demand);
      if (reading && presence(demand, box) == Presence.UNKNOWN) {
        problems.add(rule.rule().sentence().span(), Code.G406, subject(demand), stage.id());
        unmeasured = true;
      }
    }
    if (outcomes.canBeUnknown() && !unmeasured) {
      problems.add(rule.rule().sentence().span(), Code.G405, stage.id(), mayLack(condition, box));
    }
    return unmeasured ? new Outcomes(true, true, false) : outcomes;
  }

  private boolean isReading(Demand demand) {
    return switch (demand.aspect()) {
      case VALUE, EARLIER, AVERAGE, HIGHEST, LOWEST ->
          protocol.wiring().fact(demand) instanceof Fact.Read;
      case EVER, LINE_MEAN_X, LINE_MEAN_Y, LINE_SLOPE -> false;
    };
  }

  private static String subject(Demand demand) {
    return demand.aspect() == Aspect.EARLIER
        ? demand.subject() + " " + Math.round(demand.seconds()) + " s earlier"
        : demand.subject();
  }

  private Presence presence(Demand demand, Box box) {
    return box.cell(protocol.wiring().layout().demands().indexOf(demand)).presence();
  }

  private String mayLack(Condition condition, Box box) {
    List<String> lacking =
        sorted(condition).stream()
            .filter(demand -> presence(demand, box) != Presence.KNOWN)
            .map(Demand::subject)
            .distinct()
            .toList();
    return lacking.isEmpty()
        ? "a division by zero or the like is possible"
        : "need it in for, defer without it, or ask known(...): " + String.join(", ", lacking);
  }

  private void loads() {
    for (CostLine cost : protocol.assessment().costs()) {
      for (Stage stage : protocol.stages()) {
        for (String load : cost.equation().loads()) {
          if (stage.loads().stream().noneMatch(set -> set.name().equals(load))) {
            problems.add(
                draft.stages.get(stage.place()).where(),
                Code.G409,
                "the cost " + cost.equation().id(),
                load,
                stage.id());
          }
        }
      }
    }
  }

  // A slowed heart makes every rule on heart rate let the person go on too long.
  private void slowedHeart() {
    Optional<Integer> slot = slotOf(Attribute.LOWERS_HEART_RATE.word());
    boolean guided =
        protocol.stages().stream()
            .flatMap(stage -> protocol.rulesAtEndOf(stage).stream())
            .anyMatch(this::readsHeartRate);
    if (guided && slot.filter(this::defersSlowedHearts).isEmpty()) {
      problems.add(draft.header.where(), Code.G408);
    }
  }

  private boolean readsHeartRate(ProtocolRule rule) {
    return rule.rule().condition().stream()
        .flatMap(condition -> condition.demands().stream())
        .anyMatch(
            demand -> isReading(demand) && demand.type().equals(new Type.Measure(Kind.HEART_RATE)));
  }

  private Optional<Integer> slotOf(String name) {
    List<Demand> demands = protocol.wiring().layout().demands();
    return demands.stream()
        .filter(demand -> demand.aspect() == Aspect.VALUE && demand.subject().equals(name))
        .findFirst()
        .map(demands::indexOf);
  }

  private boolean defersSlowedHearts(int slot) {
    Box slowed =
        Box.of(
                protocol.wiring().layout(),
                (i, demand) -> Box.anything(demand.type()).with(Presence.MAYBE))
            .with(slot, Cell.condition(true));
    return protocol.rules().before().stream()
        .filter(rule -> rule.action() instanceof Action.Defer)
        .anyMatch(
            rule ->
                rule.rule()
                    .condition()
                    .map(when -> when.outcomes(slowed).alwaysHolds())
                    .orElse(true));
  }
}
