package org.gradus.review;

import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Fact;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.syntax.Action;
import org.gradus.unit.Kind;
import org.gradus.unit.Type;

/** What every test should have: a way to stop, a ceiling, a readiness check, a recovery. */
final class SafetyCheck {

  private static final Set<String> MAXIMUM =
      Set.of(Attribute.AGE.word(), Attribute.MEASURED_MAX_HEART_RATE.word());

  private final Protocol protocol;
  private final List<ReviewFinding> found;

  SafetyCheck(Protocol protocol, List<ReviewFinding> found) {
    this.protocol = protocol;
    this.found = found;
  }

  void look() {
    if (!any(protocol.rules().anyTime(), ProtocolRule::isStop, this::isSign)) {
      missing("stop-signs", "no sign or symptom stops the test");
    }
    boolean cleared =
        any(
            protocol.rules().before(),
            rule -> rule.action() instanceof Action.Defer,
            demand -> demand.subject().equals(Attribute.CLEARED.word()));
    if (!cleared) {
      missing("clearance", "nobody asks whether the person has been cleared");
    }
    if (protocol.recovery().isEmpty()) {
      missing("recovery", "nothing is said of what follows the exercise");
    }
    Predicate<ProtocolRule> ends = rule -> rule.isStop() || rule.isFinish();
    boolean submaximal = protocol.heading().purpose().equals("submaximal");
    if (submaximal
        && measures(Kind.HEART_RATE)
        && protocol.rules().anyTime().stream().filter(ends).noneMatch(this::isCeiling)) {
      missing(
          "ceiling",
          "no heart rate that rests on age or max_heart_rate ends this submaximal test at any"
              + " time");
    }
    if (measures(Kind.PRESSURE)
        && !any(protocol.rules().anyTime(), ends, demand -> isRead(demand, Kind.PRESSURE))) {
      missing("pressure", "blood pressure is measured, but none ends the test");
    }
  }

  private boolean any(
      List<ProtocolRule> rules, Predicate<ProtocolRule> which, Predicate<Demand> asks) {
    return rules.stream()
        .filter(which)
        .map(SafetyCheck::demands)
        .anyMatch(demands -> demands.stream().anyMatch(asks));
  }

  private static Set<Demand> demands(ProtocolRule rule) {
    return rule.rule().condition().map(when -> when.demands()).orElse(Set.of());
  }

  // One rate for all ages is the whole predicted maximum of some of them.
  private boolean isCeiling(ProtocolRule rule) {
    Set<Demand> demands = demands(rule);
    return demands.stream().anyMatch(demand -> isRead(demand, Kind.HEART_RATE))
        && demands.stream().map(Demand::subject).anyMatch(MAXIMUM::contains);
  }

  private boolean isSign(Demand demand) {
    return demand.aspect() == Aspect.EVER
        || (demand.aspect() == Aspect.VALUE
            && protocol.wiring().fact(demand) instanceof Fact.Reported);
  }

  private boolean isRead(Demand demand, Kind kind) {
    return demand.type().equals(new Type.Measure(kind)) && ProtocolParts.isRead(protocol, demand);
  }

  private boolean measures(Kind kind) {
    return protocol.schedule().lines().stream()
        .flatMap(line -> line.signals().stream())
        .map(protocol.instruments()::signal)
        .anyMatch(signal -> signal.type().equals(new Type.Measure(kind)));
  }

  private void missing(String about, String message) {
    found.add(
        ReviewFinding.of(Check.MISSING_SAFETY_RULE, about, protocol.notes().where(), message, ""));
  }
}
