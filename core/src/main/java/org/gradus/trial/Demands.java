package org.gradus.trial;

import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.NotFound;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.CostLine;
import org.gradus.protocol.Fact;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Stage;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.check.Type;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.plan.Truth;
import org.gradus.trial.Body.Load;
import org.gradus.unit.Kind;

/** What loads ask of a person, by the costs of the protocol. For one thread. */
final class Demands {

  private static final String SPEED = "speed";

  private final Protocol protocol;
  private final List<Demand> slots;
  private final Frame frame;

  Demands(Protocol protocol) {
    this.protocol = protocol;
    this.slots = protocol.wiring().layout().demands();
    this.frame = new Frame(protocol.wiring().layout());
  }

  /** Refuses a protocol that virtual people cannot take. */
  static void refuseUnlessPossible(Protocol protocol) {
    boolean open = protocol.stages().stream().anyMatch(Stage::untilDone);
    boolean bare =
        protocol.stages().stream().anyMatch(stage -> !stage.warmUp() && stage.loads().isEmpty());
    boolean ramp =
        protocol.stages().stream()
            .flatMap(stage -> stage.loads().stream())
            .anyMatch(load -> load.ramp().isPresent());
    if (protocol.assessment().costs().isEmpty() || open || bare || ramp) {
      throw new NotFound(
          Code.G604,
          "trial",
          protocol.id(),
          "a trial needs stages with a set time, fixed loads and an oxygen cost");
    }
  }

  /** The uptake a load asks for, in mL/kg/min, as the equation says. */
  double uptake(Body body, List<Load> loads) {
    boolean runs = false;
    for (Load load : loads) {
      runs |= load.name().equals(SPEED) && load.value() >= body.of(Trait.RUNS_FROM);
    }
    for (int slot = 0; slot < slots.size(); slot++) {
      Demand demand = slots.get(slot);
      if (demand.aspect() == Aspect.VALUE) {
        fill(slot, demand, body, loads, runs);
      }
    }
    for (CostLine cost : protocol.assessment().costs()) {
      Truth applies = cost.when().map(when -> when.test(frame)).orElse(Truth.TRUE);
      if (applies == Truth.TRUE) {
        double value = cost.uptake().value(frame);
        boolean absolute = cost.uptake().kind() == Kind.ABSOLUTE_UPTAKE;
        return absolute ? value / body.of(Trait.MASS) : value;
      }
    }
    return body.of(Trait.RESTING_UPTAKE);
  }

  private void fill(int slot, Demand demand, Body body, List<Load> loads, boolean runs) {
    Fact fact = protocol.wiring().fact(demand);
    if (fact instanceof Fact.Load load) {
      loads.stream()
          .filter(set -> set.name().equals(load.name()))
          .findFirst()
          .ifPresent(set -> frame.set(slot, set.value(), 0));
    } else if (fact instanceof Fact.Attribute attribute) {
      attribute(attribute.name(), body).ifPresent(value -> frame.set(slot, value, 0));
    } else if (fact instanceof Fact.Read && demand.type() instanceof Type.Choice choice) {
      frame.set(slot, Tester.gait(choice.options(), runs), 0);
    }
  }

  private static Optional<Double> attribute(String name, Body body) {
    return switch (Attribute.named(name).orElseThrow()) {
      case AGE -> Optional.of(body.of(Trait.AGE));
      case SEX -> Optional.of(1 - body.of(Trait.FEMALE));
      case MASS -> Optional.of(body.of(Trait.MASS));
      default -> Optional.empty();
    };
  }
}
