package org.gradus.trial;

import java.time.Duration;
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
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Signal;
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
  private static final String DISTANCE = "distance";
  // What is known of a virtual person; a woman is the first word of sex.
  private static final Map<Attribute, ToDoubleFunction<VirtualBody>> DRAWN =
      Map.of(
          Attribute.AGE, body -> body.of(Trait.AGE),
          Attribute.SEX, body -> 1 - body.of(Trait.FEMALE),
          Attribute.MASS, body -> body.of(Trait.MASS),
          Attribute.HEIGHT, body -> body.of(Trait.HEIGHT));

  private static final Set<Attribute> KNOWN =
      Set.of(
          Attribute.AGE,
          Attribute.SEX,
          Attribute.MASS,
          Attribute.HEIGHT,
          Attribute.CLEARED,
          Attribute.LOWERS_HEART_RATE);

  private final Protocol protocol;
  private final Frame frame;
  private final Duration longest;
  private final List<Source> sources = new ArrayList<>();

  Demands(Protocol protocol) {
    this.protocol = protocol;
    this.frame = new Frame(protocol.wiring().layout());
    this.longest = protocol.longest();
    List<Demand> slots = protocol.wiring().layout().demands();
    for (int slot = 0; slot < slots.size(); slot++) {
      add(slot, slots.get(slot));
    }
  }

  /** How long a test can last. */
  Duration longest() {
    return longest;
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

  /**
   * Refuses a protocol that virtual people cannot take, and names the key of the protocol or of the
   * population file that is in the way.
   */
  static void refuseUnlessPossible(Protocol protocol, Physiology physiology) {
    obstacle(protocol, physiology)
        .ifPresent(
            reason -> {
              throw new NotFound(Code.G604, "trial", protocol.id(), reason);
            });
  }

  private static Optional<String> obstacle(Protocol protocol, Physiology physiology) {
    for (String need : protocol.eligibility().needs()) {
      if (Attribute.named(need).filter(KNOWN::contains).isEmpty()) {
        return Optional.of(
            "needs under for: virtual people have no " + need + ", only age, sex, mass and height");
      }
    }
    for (CostLine cost : protocol.assessment().costs()) {
      if (cost.uptake().demands().stream().anyMatch(demand -> !isDrawn(demand, protocol))) {
        return Optional.of(
            "cost: the oxygen cost has to rest on nothing but loads, age, sex, mass and height");
      }
    }
    return protocol.stages().stream()
        .flatMap(stage -> obstacle(stage, protocol, physiology).stream())
        .findFirst()
        .or(() -> unread(protocol, physiology));
  }

  private static Optional<String> obstacle(Stage stage, Protocol protocol, Physiology physiology) {
    if (stage.untilDone() && !physiology.done().containsKey(protocol.id())) {
      return Optional.of(
          "stages: "
              + stage.id()
              + " lasts until it is done; say under done of the population file how long "
              + protocol.id()
              + " takes");
    }
    List<String> loads = stage.loads().stream().map(Stage.Load::name).toList();
    boolean free = loads.isEmpty() || loads.equals(List.of(DISTANCE));
    return protocol.assessment().costs().isEmpty() && !free && physiology.cost(loads).isEmpty()
        ? Optional.of(
            "stages: "
                + stage.id()
                + " sets "
                + String.join(", ", loads)
                + "; say under costs of the population file what that costs, or give the protocol"
                + " a cost")
        : Optional.empty();
  }

  // What is only read where it can be may stay unread.
  private static Optional<String> unread(Protocol protocol, Physiology physiology) {
    for (MeasureLine line : protocol.schedule().lines()) {
      for (String name : line.signals()) {
        Signal signal = protocol.instruments().signal(name);
        Optional<Physiology.Modelled> modelled =
            Optional.ofNullable(physiology.signals().get(name));
        boolean other = modelled.filter(found -> !isOf(found, signal)).isPresent();
        boolean waited = line.ifMissing() != MeasureLine.IfMissing.GO_ON;
        if (other || (waited && modelled.isEmpty() && !isOfBody(signal, line))) {
          return Optional.of(
              "measure: "
                  + name
                  + " is no reading of virtual people; say under signals of the population file"
                  + " what it shows, as "
                  + (signal.type() instanceof Type.Measure measure
                      ? measure.kind().phrase()
                      : "a choice"));
        }
      }
    }
    return Optional.empty();
  }

  private static boolean isOf(Physiology.Modelled modelled, Signal signal) {
    return signal.type() instanceof Type.Measure measure && measure.kind() == modelled.kind();
  }

  private static boolean isOfBody(Signal signal, MeasureLine line) {
    return line.scale().isPresent()
        || !(signal.type() instanceof Type.Measure measure)
        || measure.kind() == Kind.HEART_RATE
        || measure.kind() == Kind.PRESSURE;
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

  /**
   * The uptake a load asks for, in mL/kg/min, as the equation of the protocol says; of a protocol
   * without one, as the population file does. Where the pace is free it is the person's own.
   */
  double uptake(VirtualBody body, List<Load> loads, boolean works) {
    if (protocol.assessment().costs().isEmpty()) {
      return body.modelledUptake(loads)
          .orElse(
              works
                  ? body.of(Trait.FREE_PACE) * body.of(Trait.CAPACITY)
                  : body.of(Trait.RESTING_UPTAKE));
    }
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
