package org.gradus.library;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.protocol.Fact;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Schedule;
import org.gradus.rule.Condition;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.syntax.Expression;

/** Each group of rules looks only at what is known where it is looked at. */
final class KnownFacts {

  private final Draft draft;
  private final Protocol protocol;
  private final Problems problems;

  KnownFacts(Draft draft, Protocol protocol, Problems problems) {
    this.draft = draft;
    this.protocol = protocol;
    this.problems = problems;
  }

  /** Checks it; of readings only when what is measured exists. */
  void check(boolean measured) {
    protocol.rules().before().forEach(rule -> demands(rule).forEach(d -> before(rule, d)));
    if (measured && draft.isWhole("measure")) {
      measured(protocol.rules().anyTime(), protocol.schedule(), "any stage");
    }
    if (measured && draft.isWhole("recovery") && protocol.recovery().isPresent()) {
      measured(protocol.rules().recovery(), protocol.recovery().get().schedule(), "recovery");
    }
    draft.questions.forEach(
        (name, ask) ->
            protocol
                .instruments()
                .question(name)
                .unless()
                .ifPresent(condition -> unless(condition, ask.value().unless().orElseThrow())));
    new Answers(draft, protocol, problems).check();
  }

  /** What a condition asks for, in an order that is always the same. */
  static List<Demand> demands(Condition condition) {
    return condition.demands().stream()
        .sorted(Comparator.comparing(Demand::subject).thenComparing(Demand::aspect))
        .toList();
  }

  private static List<Demand> demands(ProtocolRule rule) {
    return rule.rule().condition().map(KnownFacts::demands).orElse(List.of());
  }

  // Before the first stage nothing is known but the person, the answers and the readings at rest.
  private void before(ProtocolRule rule, Demand demand) {
    Optional<Fact> fact = fact(demand);
    boolean known =
        demand.aspect() == Aspect.EVER
            || fact.filter(
                    f ->
                        f instanceof Fact.Attribute
                            || f instanceof Fact.Answer
                            || f instanceof Fact.Baseline
                            || f instanceof Fact.Reported)
                .isPresent();
    if (!known) {
      String help =
          fact.filter(Fact.Read.class::isInstance).isPresent()
              ? "write resting." + demand.subject()
              : "use it in a later group";
      problems.add(
          rule.rule().sentence().span(), Code.G410, demand.subject(), "before the test", help);
    }
  }

  private void measured(List<ProtocolRule> rules, Schedule schedule, String where) {
    for (ProtocolRule rule : rules) {
      for (Demand demand : demands(rule)) {
        boolean reading =
            demand.aspect() != Aspect.EVER
                && fact(demand).filter(Fact.Read.class::isInstance).isPresent();
        if (reading && schedule.lineOf(demand.subject()).isEmpty()) {
          problems.add(rule.rule().sentence().span(), Code.G406, demand.subject(), where);
        }
      }
    }
  }

  // Whether a question is asked depends on the person alone, not on other answers.
  private void unless(Condition condition, Expression text) {
    for (Demand demand : demands(condition)) {
      if (fact(demand).filter(Fact.Attribute.class::isInstance).isEmpty()) {
        problems.add(
            text.span(),
            Code.G410,
            demand.subject(),
            "when it is decided what to ask",
            "use only what is known of the person");
      }
    }
  }

  private Optional<Fact> fact(Demand demand) {
    return switch (demand.aspect()) {
      case COUNT, COMPLETED, LINE_MEAN_X, LINE_MEAN_Y, LINE_SLOPE -> Optional.empty();
      default -> Optional.of(protocol.wiring().fact(demand));
    };
  }
}
