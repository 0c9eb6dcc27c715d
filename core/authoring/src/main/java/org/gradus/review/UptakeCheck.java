package org.gradus.review;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import org.gradus.internal.reach.Scene;
import org.gradus.protocol.CostLine;
import org.gradus.protocol.Fact;
import org.gradus.protocol.Paths;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Stage;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.plan.Frame;
import org.gradus.unit.Quantity;

/** A stage should cost more oxygen than those it is reached from. */
final class UptakeCheck {

  private static final int PEOPLE = 40;
  private static final long SEED = 7_301;

  private final Protocol protocol;
  private final Sampler sampler;
  private final List<ReviewFinding> found;
  private final List<Demand> demands;
  private final Scene scene;

  UptakeCheck(Protocol protocol, Sampler sampler, List<ReviewFinding> found) {
    this.protocol = protocol;
    this.sampler = sampler;
    this.found = found;
    this.demands = protocol.wiring().layout().demands();
    this.scene = new Scene(protocol, Paths.of(protocol));
  }

  void look() {
    Paths paths = Paths.of(protocol);
    for (Stage stage : protocol.stages()) {
      if (stage.isCounted() && !protocol.notes().falls().contains(stage.id())) {
        Set<Stage> before = new LinkedHashSet<>();
        collect(stage, paths, before);
        for (Stage one : before) {
          // One finding for each stage is enough.
          if (one.isCounted() && falls(one, stage)) {
            break;
          }
        }
      }
    }
  }

  // What comes before a pause comes before what follows it.
  private void collect(Stage stage, Paths paths, Set<Stage> found) {
    for (int place : paths.before(stage.place())) {
      Stage before = protocol.stages().get(place);
      if (before.pause()) {
        collect(before, paths, found);
      } else {
        found.add(before);
      }
    }
  }

  private boolean falls(Stage before, Stage stage) {
    SplittableRandom random = new SplittableRandom(SEED);
    for (int i = 0; i < PEOPLE; i++) {
      Optional<Frame> person = sampler.draw(scene.start(before), random);
      for (CostLine cost : protocol.assessment().costs()) {
        if (person.isPresent()) {
          double first = uptake(person.get(), before, cost);
          double then = uptake(person.get(), stage, cost);
          if (then < first || Quantity.same(then, first)) {
            report(before, stage, cost, first, then);
            return true;
          }
        }
      }
    }
    return false;
  }

  // Not a number where the cost is not meant for the stage.
  private double uptake(Frame frame, Stage stage, CostLine cost) {
    List<Double> loads = new ArrayList<>();
    for (Stage.Load load : stage.loads()) {
      double value = load.value().value(frame);
      loads.add(value);
      set(frame, load.name(), value, false);
    }
    boolean counts = cost.when().map(when -> when.test(frame) != Truth.FALSE).orElse(true);
    double uptake = counts ? cost.uptake().value(frame) : Double.NaN;
    for (int i = 0; i < loads.size(); i++) {
      set(frame, stage.loads().get(i).name(), loads.get(i), true);
    }
    return uptake;
  }

  private void set(Frame frame, String load, double value, boolean previous) {
    for (int slot = 0; slot < demands.size(); slot++) {
      Demand demand = demands.get(slot);
      if (demand.aspect() == Aspect.VALUE) {
        Fact fact = protocol.wiring().fact(demand);
        boolean now = fact instanceof Fact.Load set && set.name().equals(load);
        boolean then = fact instanceof Fact.PreviousLoad before && before.name().equals(load);
        if (previous ? then : now) {
          frame.set(slot, value, 0);
        }
      }
    }
  }

  private void report(Stage before, Stage stage, CostLine cost, double first, double then) {
    var unit = cost.uptake().kind().base();
    found.add(
        ReviewFinding.of(
            Check.UPTAKE_NOT_RISING,
            stage.id(),
            protocol.notes().place("stage " + stage.id()),
            stage.id() + " costs no more oxygen than " + before.id() + " before it",
            "by the "
                + cost.equation().id()
                + " equation "
                + before.id()
                + " costs "
                + Quantity.of(first, unit).rounded(1)
                + " and "
                + stage.id()
                + " "
                + Quantity.of(then, unit).rounded(1)));
  }
}
