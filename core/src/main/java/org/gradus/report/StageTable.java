package org.gradus.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Signal;
import org.gradus.report.Block.Table;
import org.gradus.report.Chart.Point;
import org.gradus.report.Chart.Reading;
import org.gradus.rule.Formula;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Type;
import org.gradus.rule.plan.Frame;
import org.gradus.session.Loading;
import org.gradus.session.Outcome;
import org.gradus.session.StageResult;
import org.gradus.session.Times;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** The stages with what was read at their ends, as a table and as a drawing. */
final class StageTable {

  private static final String HEART_RATE = "heart_rate";

  private final Outcome outcome;
  private final Protocol protocol;
  private final Capacity capacity;
  private final Optional<Estimate.Available> headline;

  StageTable(Outcome outcome, Capacity capacity) {
    this.outcome = outcome;
    this.protocol = outcome.protocol();
    this.capacity = capacity;
    this.headline = capacity.headline();
  }

  Table table() {
    List<String> signals = signals();
    List<String> heads = new ArrayList<>(List.of("stage", "from", "lasted", "load"));
    signals.forEach(signal -> heads.add(signal.replace('_', ' ')));
    heads.addAll(List.of("oxygen uptake", "for the estimate"));
    List<List<String>> rows = new ArrayList<>();
    for (StageResult stage : outcome.stages()) {
      Frame frame = outcome.atEndOf(stage);
      List<String> row = new ArrayList<>();
      row.add(stage.id() + (stage.warmUp() ? " (warm-up)" : ""));
      row.add(Times.clock(stage.start()));
      row.add(Times.clock(stage.lasted()) + (stage.completed() ? "" : ", broken off"));
      row.add(Loading.line(stage.loads()));
      signals.forEach(signal -> row.add(shown(signal, frame)));
      row.add(
          uptake(frame).isPresent()
              ? Quantity.of(uptake(frame).getAsDouble(), Unit.ML_PER_KG_PER_MINUTE)
                  .rounded(1)
                  .toString()
              : "–");
      row.add(isUsed(stage) ? "used" : "–");
      rows.add(row);
    }
    return new Table("Stages, with what counted at the end of each", heads, rows);
  }

  private List<String> signals() {
    return protocol.schedule().lines().stream()
        .flatMap(line -> line.signals().stream())
        .distinct()
        .filter(name -> protocol.instruments().signals().containsKey(name))
        .filter(name -> slot(name).isPresent())
        .toList();
  }

  private Optional<Integer> slot(String signal) {
    Signal declared = protocol.instruments().signal(signal);
    int slot = protocol.wiring().layout().demands().indexOf(Demand.value(signal, declared.type()));
    return slot < 0 ? Optional.empty() : Optional.of(slot);
  }

  private String shown(String signal, Frame frame) {
    int slot = slot(signal).orElseThrow();
    if (!frame.isKnown(slot)) {
      return "–";
    }
    Type type = protocol.instruments().signal(signal).type();
    if (type instanceof Type.Choice choice) {
      return choice.options().get((int) frame.value(slot));
    }
    Kind kind = ((Type.Measure) type).kind();
    return Quantity.ofBase(frame.value(slot), kind.base()).rounded(1).toString();
  }

  private boolean isUsed(StageResult stage) {
    return headline
        .map(
            best ->
                best.ingredients().stream()
                    .anyMatch(ingredient -> ingredient.name().equals("stage " + stage.id())))
        .orElse(false);
  }

  private OptionalDouble uptake(Frame frame) {
    Optional<Formula> uptake = protocol.assessment().uptake();
    double value = uptake.map(cost -> cost.value(frame)).orElse(Double.NaN);
    if (uptake.isPresent() && uptake.get().kind() == Kind.ABSOLUTE_UPTAKE) {
      value /=
          outcome
              .person()
              .value(org.gradus.protocol.Attribute.MASS)
              .map(Quantity::base)
              .orElse(Double.NaN);
    }
    return Double.isNaN(value) ? OptionalDouble.empty() : OptionalDouble.of(value);
  }

  /** The drawing, where at least one stage has both values. */
  Optional<Chart> chart() {
    Optional<Integer> slot =
        protocol.instruments().signals().containsKey(HEART_RATE)
            ? slot(HEART_RATE)
            : Optional.empty();
    if (slot.isEmpty()) {
      return Optional.empty();
    }
    List<Point> points = new ArrayList<>();
    for (StageResult stage : outcome.stages()) {
      Frame frame = outcome.atEndOf(stage);
      OptionalDouble uptake = uptake(frame);
      if (uptake.isPresent() && frame.isKnown(slot.get())) {
        points.add(
            new Point(stage.id(), uptake.getAsDouble(), frame.value(slot.get()), isUsed(stage)));
      }
    }
    return points.isEmpty() ? Optional.empty() : Optional.of(new Chart(points, answer()));
  }

  private Optional<Reading> answer() {
    Optional<Quantity> maximum = capacity.facts().reading("max_heart_rate");
    return headline
        .filter(best -> maximum.isPresent() && restsOnMaximum(best))
        .map(
            best ->
                new Reading(
                    maximum.get().base(),
                    best.vo2max().base(),
                    best.interval().map(around -> around.low().base()).orElse(best.vo2max().base()),
                    best.interval()
                        .map(around -> around.high().base())
                        .orElse(best.vo2max().base())));
  }

  private static boolean restsOnMaximum(Estimate.Available best) {
    return best.ingredients().stream()
        .anyMatch(ingredient -> ingredient.name().equals("max_heart_rate"));
  }
}
