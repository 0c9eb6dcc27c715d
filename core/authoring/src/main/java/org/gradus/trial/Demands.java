package org.gradus.trial;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.ToDoubleFunction;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.NotFound;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.CostLine;
import org.gradus.protocol.Fact;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Stage;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.plan.Frame;
import org.gradus.trial.VirtualBody.Load;
import org.gradus.unit.Kind;
import org.gradus.unit.Type;

/** What loads ask of a person, by the costs of the protocol. For one thread. */
final class Demands {

  private static final String SPEED = "speed";
  // What is known of a virtual person; a woman is the first word of sex.
  private static final Map<Attribute, ToDoubleFunction<VirtualBody>> DRAWN =
      Map.of(
          Attribute.AGE, body -> body.of(Trait.AGE),
          Attribute.SEX, body -> 1 - body.of(Trait.FEMALE),
          Attribute.MASS, body -> body.of(Trait.MASS));

  private static final Set<Attribute> KNOWN =
      Set.of(
          Attribute.AGE,
          Attribute.SEX,
          Attribute.MASS,
          Attribute.CLEARED,
          Attribute.LOWERS_HEART_RATE);

  private final Protocol protocol;
  private final Frame frame;
  private final List<Source> sources = new ArrayList<>();

  Demands(Protocol protocol) {
    this.protocol = protocol;
    this.frame = new Frame(protocol.wiring().layout());
    List<Demand> slots = protocol.wiring().layout().demands();
    for (int slot = 0; slot < slots.size(); slot++) {
      add(slot, slots.get(slot));
    }
  }

  /** Fills one slot with what is known of a person and the load. */
  private interface Source {
    void fill(VirtualBody body, List<Load> loads, boolean runs);
  }

  private void add(int slot, Demand demand) {
    if (demand.aspect() != Aspect.VALUE) {
      return;
    }
    Fact fact = protocol.wiring().fact(demand);
    if (fact instanceof Fact.Load load) {
      sources.add((body, loads, runs) -> set(slot, load.name(), loads));
    } else if (fact instanceof Fact.Attribute attribute) {
      Optional.ofNullable(DRAWN.get(attribute.which()))
          .ifPresent(
              drawn ->
                  sources.add(
                      (body, loads, runs) -> frame.set(slot, drawn.applyAsDouble(body), 0)));
    } else if (fact instanceof Fact.Read && demand.type() instanceof Type.Choice choice) {
      sources.add((body, loads, runs) -> frame.set(slot, Tester.gait(choice.options(), runs), 0));
    }
  }

  private void set(int slot, String name, List<Load> loads) {
    for (Load load : loads) {
      if (load.name().equals(name)) {
        frame.set(slot, load.value(), 0);
        return;
      }
    }
    frame.miss(slot, Gap.never(name, Gap.Cause.NOT_IN_STAGE));
  }

  /** Refuses a protocol that virtual people cannot take. */
  static void refuseUnlessPossible(Protocol protocol) {
    boolean open = protocol.stages().stream().anyMatch(Stage::untilDone);
    boolean bare =
        protocol.stages().stream().anyMatch(stage -> stage.isCounted() && stage.loads().isEmpty());
    boolean ramp =
        protocol.stages().stream()
            .flatMap(stage -> stage.loads().stream())
            .anyMatch(load -> load.ramp().isPresent());
    boolean strange =
        protocol.assessment().costs().stream()
            .flatMap(cost -> cost.uptake().demands().stream())
            .anyMatch(demand -> !isDrawn(demand, protocol));
    boolean unknown =
        protocol.eligibility().needs().stream()
            .flatMap(need -> Attribute.named(need).stream())
            .anyMatch(need -> !KNOWN.contains(need));
    if (unknown) {
      throw new NotFound(
          Code.G604,
          "trial",
          protocol.id(),
          "virtual people have no more than age, sex and mass, and it needs "
              + String.join(", ", protocol.eligibility().needs().stream().sorted().toList()));
    }
    if (protocol.assessment().costs().isEmpty() || open || bare || ramp || strange) {
      throw new NotFound(
          Code.G604,
          "trial",
          protocol.id(),
          "a trial needs stages with a set time, fixed loads and an oxygen cost that rests on"
              + " nothing but loads, age, sex and mass");
    }
  }

  private static boolean isDrawn(Demand demand, Protocol protocol) {
    if (demand.aspect() != Aspect.VALUE) {
      return false;
    }
    Fact fact = protocol.wiring().fact(demand);
    return fact instanceof Fact.Load
        || (fact instanceof Fact.Read && demand.type() instanceof Type.Choice)
        || (fact instanceof Fact.Attribute attribute && DRAWN.containsKey(attribute.which()));
  }

  /** The uptake a load asks for, in mL/kg/min, as the equation says. */
  double uptake(VirtualBody body, List<Load> loads) {
    boolean runs = false;
    for (Load load : loads) {
      runs |= load.name().equals(SPEED) && load.value() >= body.of(Trait.RUNS_FROM);
    }
    for (Source source : sources) {
      source.fill(body, loads, runs);
    }
    for (CostLine cost : protocol.assessment().costs()) {
      Truth applies = cost.when().map(when -> when.test(frame)).orElse(Truth.TRUE);
      if (applies == Truth.TRUE) {
        return uptake(cost, body);
      }
    }
    return body.of(Trait.RESTING_UPTAKE);
  }

  // Only in a warm-up that is without a load the equation asks for: that counts as rest.
  private double uptake(CostLine cost, VirtualBody body) {
    double value = cost.uptake().value(frame);
    if (Double.isNaN(value)) {
      return body.of(Trait.RESTING_UPTAKE);
    }
    boolean absolute = cost.uptake().kind() == Kind.ABSOLUTE_UPTAKE;
    return absolute ? value / body.of(Trait.MASS) : value;
  }
}
