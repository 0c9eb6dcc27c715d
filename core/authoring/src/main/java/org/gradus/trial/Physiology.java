package org.gradus.trial;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.knowledge.Citation;
import org.gradus.rule.Formula;
import org.gradus.rule.check.Layout;
import org.gradus.rule.plan.Frame;
import org.gradus.trial.VirtualBody.Load;
import org.gradus.unit.Kind;

/**
 * What a population file says of bodies beside their traits: what loads cost where a protocol has
 * no oxygen cost, what other signals show, and how long a stage lasts that lasts until it is done.
 *
 * @param layout the slots of traits, loads and effort
 * @param loads the slot of each load
 * @param effort the slot of the share of the reserve that is used
 * @param costs what loads cost; the first line whose loads are all set counts
 * @param signals what other signals show, by name
 * @param done how long a stage lasts until it is done, by protocol
 */
record Physiology(
    Layout layout,
    Map<String, Integer> loads,
    int effort,
    List<LoadCost> costs,
    Map<String, Modelled> signals,
    Map<String, Modelled> done) {

  Physiology {
    loads = Map.copyOf(loads);
    costs = List.copyOf(costs);
    signals = Map.copyOf(signals);
    done = Map.copyOf(done);
  }

  /** What loads cost a person. */
  record LoadCost(List<String> of, Formula uptake, Citation source) {}

  /** A value with its spread from one person or reading to the next. */
  record Modelled(Formula value, Optional<Formula> sd, Citation source) {

    Kind kind() {
      return value.kind();
    }

    double draw(Frame frame, java.util.SplittableRandom random) {
      double spread = sd.map(formula -> formula.value(frame)).orElse(0.0);
      return value.value(frame) + spread * Bell.draw(random);
    }
  }

  /** The line that counts for some loads. */
  Optional<LoadCost> cost(List<String> names) {
    return costs.stream().filter(cost -> names.containsAll(cost.of())).findFirst();
  }

  /** A frame with the traits of a person. */
  Frame frame(Traits traits) {
    Frame frame = new Frame(layout);
    int slot = 0; // slots are given in the order of the traits
    for (Trait trait : Trait.values()) {
      frame.set(slot++, traits.of(trait), 0);
    }
    return frame;
  }

  /** What loads cost a person, in the base unit of uptakes. */
  Optional<Double> uptake(Frame frame, List<Load> set) {
    Optional<LoadCost> cost = cost(set.stream().map(Load::name).toList());
    cost.ifPresent(
        line -> {
          for (Load load : set) {
            Integer slot = loads.get(load.name());
            if (slot != null) {
              frame.set(slot, load.value(), 0);
            }
          }
        });
    return cost.map(line -> line.uptake().value(frame));
  }
}
