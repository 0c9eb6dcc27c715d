package org.gradus.report;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.internal.KeyMoments;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Signal;
import org.gradus.rule.Formula;
import org.gradus.rule.check.Demand;
import org.gradus.rule.plan.Frame;
import org.gradus.session.Outcome;
import org.gradus.session.Reading;
import org.gradus.session.Readings;
import org.gradus.session.StageResult;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;

/**
 * A stage that was left, with what counted at its end: what a report shows of it, as values.
 *
 * <pre>{@code
 * Outcome outcome = session.outcome();
 * for (StageRow row : StageRow.of(outcome, Capacity.of(outcome))) {
 *   row.reading("heart_rate").ifPresent(rate -> show(row.stage().id(), rate));
 * }
 * }</pre>
 *
 * @param stage the stage
 * @param readings what was known of each signal that the protocol asks for, at the end of the
 *     stage; a signal of which nothing counted is missing
 * @param uptake the oxygen uptake that the load costs, in mL/kg/min, by the equation of the
 *     protocol; empty where it has none or something it needs is not known
 * @param used whether the first estimate that could be made rests on this stage
 */
public record StageRow(
    StageResult stage, List<Reading> readings, Optional<Quantity> uptake, boolean used) {

  public StageRow {
    requireNonNull(readings, "readings");
    requireNonNull(stage, "stage");
    requireNonNull(uptake, "uptake");
    readings = List.copyOf(readings);
  }

  /** The stages of a test that were left, in order; not the one that still lasts. */
  public static List<StageRow> of(Outcome outcome, Capacity capacity) {
    requireNonNull(capacity, "capacity");
    return outcome.stages().stream()
        .map(
            stage -> {
              Frame frame = KeyMoments.of(outcome).atEndOf(stage.place());
              return new StageRow(
                  stage,
                  readings(outcome.protocol(), frame),
                  uptake(outcome, frame),
                  capacity.headline().map(best -> restsOn(best, stage)).orElse(false));
            })
        .toList();
  }

  /** What was known of a signal. */
  public Optional<Reading> reading(String signal) {
    requireNonNull(signal, "signal");
    return readings.stream().filter(reading -> reading.subject().equals(signal)).findFirst();
  }

  /** Whether anything in the protocol asks for a signal; of any other nothing is known. */
  static boolean isAskedFor(String signal, Protocol protocol) {
    Signal declared = protocol.instruments().signals().get(signal);
    return declared != null && slot(declared, protocol).isPresent();
  }

  private static OptionalInt slot(Signal signal, Protocol protocol) {
    int slot =
        protocol.wiring().layout().demands().indexOf(Demand.value(signal.name(), signal.type()));
    return slot < 0 ? OptionalInt.empty() : OptionalInt.of(slot);
  }

  private static List<Reading> readings(Protocol protocol, Frame frame) {
    List<Reading> readings = new ArrayList<>();
    for (Signal signal : protocol.instruments().signals().values()) {
      OptionalInt slot = slot(signal, protocol);
      if (slot.isPresent() && frame.isKnown(slot.getAsInt())) {
        readings.add(reading(signal, frame.value(slot.getAsInt())));
      }
    }
    return readings;
  }

  private static Reading reading(Signal signal, double value) {
    if (signal.type() instanceof Type.Choice choice) {
      return Readings.chosen(signal.name(), choice.options().get((int) value));
    }
    return Readings.measured(signal.name(), Quantity.ofBase(value, signal.unit()));
  }

  private static Optional<Quantity> uptake(Outcome outcome, Frame frame) {
    Optional<Formula> cost = outcome.protocol().assessment().uptake();
    double value = cost.map(formula -> formula.value(frame)).orElse(Double.NaN);
    if (cost.isPresent() && cost.get().kind() == Kind.ABSOLUTE_UPTAKE) {
      value /= outcome.person().value(Attribute.MASS).map(Quantity::base).orElse(Double.NaN);
    }
    return Double.isNaN(value)
        ? Optional.empty()
        : Optional.of(Quantity.of(value, Unit.ML_PER_KG_PER_MINUTE));
  }

  private static boolean restsOn(Estimate.Available estimate, StageResult stage) {
    return estimate.ingredients().stream()
        .anyMatch(ingredient -> ingredient.name().equals("stage " + stage.id()));
  }
}
