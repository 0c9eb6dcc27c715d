package org.gradus.review;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gradus.diagnostic.Span;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Fact;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.rule.Compared;
import org.gradus.rule.Formula;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.plan.Frame;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;

/** A fixed limit on the heart rate lies above the ceiling from some age on. */
final class CeilingCheck {

  private final Protocol protocol;
  private final List<ReviewFinding> found;
  private final List<Demand> demands;

  CeilingCheck(Protocol protocol, List<ReviewFinding> found) {
    this.protocol = protocol;
    this.found = found;
    this.demands = protocol.wiring().layout().demands();
  }

  void look() {
    List<Formula> ceilings = new ArrayList<>();
    for (ProtocolRule rule : protocol.rules().anyTime()) {
      if (rule.isStop() || rule.isFinish()) {
        for (Compared compared : ProtocolParts.comparisons(rule)) {
          if (isHeartRate(compared.left()) && restsOnAge(compared.right())) {
            ceilings.add(compared.right());
          }
        }
      }
    }
    Set<Span> seen = new java.util.HashSet<>();
    for (ProtocolParts.Grouped grouped : ProtocolParts.rules(protocol)) {
      boolean inStages = !List.of("before", "recovery", "result").contains(grouped.group());
      if (inStages && !ceilings.isEmpty()) {
        for (Compared compared : ProtocolParts.comparisons(grouped.rule())) {
          Optional<Double> limit = limit(compared);
          if (limit.isPresent() && seen.add(compared.whole())) {
            passes(limit.get(), ceilings, compared, grouped.rule());
          }
        }
      }
    }
  }

  private Optional<Double> limit(Compared compared) {
    if (isHeartRate(compared.left())) {
      return ProtocolParts.constant(protocol, compared.right());
    }
    return isHeartRate(compared.right())
        ? ProtocolParts.constant(protocol, compared.left())
        : Optional.empty();
  }

  // A reading in the stages, as it is.
  private boolean isHeartRate(Formula side) {
    return side.kind() == Kind.HEART_RATE
        && ProtocolParts.signal(protocol, side).isPresent()
        && side.demands().stream().allMatch(demand -> ProtocolParts.isRead(protocol, demand));
  }

  private boolean restsOnAge(Formula side) {
    return side.demands().stream().anyMatch(CeilingCheck::isAge);
  }

  private static boolean isAge(Demand demand) {
    return demand.aspect() == Aspect.VALUE && demand.subject().equals(Attribute.AGE.word());
  }

  private void passes(double limit, List<Formula> ceilings, Compared compared, ProtocolRule rule) {
    for (int age = protocol.eligibility().youngest();
        age <= protocol.eligibility().oldest();
        age++) {
      for (Formula ceiling : ceilings) {
        double at = ceiling.value(person(age));
        if (!Double.isNaN(at) && limit > at && !Quantity.same(limit, at)) {
          String fixed = Quantity.of(limit, Unit.BPM).rounded(1).toString();
          found.add(
              ReviewFinding.of(
                  Check.FIXED_LIMIT,
                  rule.id(),
                  compared.whole(),
                  "the fixed limit of "
                      + fixed
                      + " passes the ceiling from an age of "
                      + age
                      + " years on",
                  "at "
                      + age
                      + " years the ceiling "
                      + ceiling.text()
                      + " is "
                      + Quantity.of(at, Unit.BPM).rounded(1)));
          return;
        }
      }
    }
  }

  // Somebody of whom no more is known than the age, and that nothing slows the heart.
  private Frame person(int age) {
    Frame frame = new Frame(protocol.wiring().layout());
    for (int slot = 0; slot < demands.size(); slot++) {
      Demand demand = demands.get(slot);
      boolean attribute =
          demand.aspect() == Aspect.VALUE
              && protocol.wiring().fact(demand) instanceof Fact.Attribute;
      if (isAge(demand)) {
        frame.set(slot, age, 0);
      } else if (attribute && !(demand.type() instanceof Type.Measure)) {
        frame.set(slot, 0, 0);
      }
    }
    return frame;
  }
}
