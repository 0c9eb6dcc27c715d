package org.gradus.library;

import java.time.Duration;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.protocol.Fact;
import org.gradus.protocol.Fact.Dependence;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Recovery;
import org.gradus.protocol.Schedule;
import org.gradus.rule.Condition;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.syntax.Expression;

/** Checks that each group of rules uses only values that are known when its rules are evaluated. */
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
      Duration longest =
          protocol.stages().stream()
              .map(protocol::longestStay)
              .max(Duration::compareTo)
              .orElse(Duration.ZERO);
      measured(protocol.rules().anyTime(), protocol.schedule(), longest, "any stage");
    }
    if (measured && draft.isWhole("recovery") && protocol.recovery().isPresent()) {
      Recovery recovery = protocol.recovery().get();
      measured(protocol.rules().recovery(), recovery.schedule(), recovery.atMost(), "recovery");
      protocol.rules().recovery().forEach(rule -> loads(rule, recovery));
      protocol.rules().recovery().forEach(this::stageClocks);
    }
    if (measured) {
      protocol.rules().anyTime().forEach(this::confirmed);
      protocol.rules().recovery().forEach(this::confirmed);
    }
    draft.questions.forEach(
        (name, ask) ->
            protocol
                .instruments()
                .question(name)
                .unless()
                .ifPresent(condition -> unless(condition, ask.value().unless().orElseThrow())));
    new AnswerDependencies(draft, protocol, problems).check();
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
            || fact.map(Fact::dependsOn)
                .filter(what -> what == Dependence.PERSON || what == Dependence.SIGN)
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

  // What is never read, or never read so long before another reading, is never known.
  private void measured(
      List<ProtocolRule> rules, Schedule schedule, Duration longest, String where) {
    for (ProtocolRule rule : rules) {
      for (Demand demand : demands(rule)) {
        boolean reading =
            demand.aspect() != Aspect.EVER
                && fact(demand).filter(Fact.Read.class::isInstance).isPresent();
        Optional<MeasureLine> line = schedule.lineOf(demand.subject());
        if (reading && line.isEmpty()) {
          problems.add(rule.rule().sentence().span(), Code.G406, demand.subject(), where);
        } else if (reading && demand.aspect() == Aspect.EARLIER) {
          Duration back = Duration.ofMillis(Math.round(demand.seconds() * 1000));
          if (!line.orElseThrow().timing().repeatsAfter(back, longest)) {
            problems.add(rule.rule().sentence().span(), Code.G406, earlier(demand), where);
          }
        }
      }
    }
  }

  // Recovery has loads of its own, or none; those of the last stage are not set any more.
  private void loads(ProtocolRule rule, Recovery recovery) {
    for (Demand demand : demands(rule)) {
      boolean load =
          demand.aspect() == Aspect.VALUE
              && fact(demand).filter(Fact.Load.class::isInstance).isPresent();
      boolean set =
          recovery.stages().stream()
              .flatMap(stage -> stage.loads().stream())
              .anyMatch(component -> component.name().equals(demand.subject()));
      if (load && !set) {
        problems.add(
            rule.rule().sentence().span(),
            Code.G410,
            demand.subject(),
            "in recovery",
            "set it in a stage of recovery, or ask for something else");
      }
    }
  }

  // Whoever recovers is in no stage of the exercise any more.
  private void stageClocks(ProtocolRule rule) {
    for (Demand demand : demands(rule)) {
      boolean ofStage =
          demand.aspect() == Aspect.VALUE && isOfStage(protocol.wiring().fact(demand));
      if (ofStage) {
        problems.add(
            rule.rule().sentence().span(),
            Code.G410,
            demand.subject(),
            "in recovery",
            "use recovery.time, test.time or count");
      }
    }
  }

  private static boolean isOfStage(Fact fact) {
    return switch (fact.dependsOn()) {
      case STAGE -> true;
      case CLOCK -> ((Fact.Clock) fact).which().isOfStage();
      case PERSON, READING, SIGN, LOAD, RESULT -> false;
    };
  }

  // A sign is seen, a clock runs: neither can be read a second time.
  private void confirmed(ProtocolRule rule) {
    boolean reads =
        demands(rule).stream()
            .anyMatch(
                demand ->
                    demand.aspect() != Aspect.EVER
                        && fact(demand).filter(Fact.Read.class::isInstance).isPresent());
    if (rule.confirm().isPresent() && !reads) {
      problems.add(
          rule.rule().sentence().span(),
          Code.G302,
          "confirm",
          "a rule that asks for no reading",
          "only a reading can be taken a second time; leave confirm out, and the rule applies at"
              + " once");
    }
  }

  /** A look back as messages call it: {@code heart_rate 60 s earlier}. */
  static String earlier(Demand demand) {
    return demand.subject() + " " + Math.round(demand.seconds()) + " s earlier";
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
      case COUNT, COMPLETED, LINE_MEAN_X, LINE_MEAN_Y, LINE_SLOPE, INTERPOLATED -> Optional.empty();
      case VALUE, EARLIER, AVERAGE, HIGHEST, LOWEST, EVER ->
          Optional.of(protocol.wiring().fact(demand));
    };
  }
}
