package org.gradus.testkit;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Scale;
import org.gradus.protocol.Signal;
import org.gradus.session.Reading;
import org.gradus.session.Reading.Measured;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;

/**
 * A person's readings while the effort grows: within what is usual for the most part, at times
 * beside a figure that a rule speaks of, once in a while anywhere, and now and then a slip.
 */
final class BodyReadings {

  private static final double MINUTE = 60_000;

  private final Panel panel;
  private final Luck luck;
  private double effort;

  BodyReadings(Panel panel, Luck luck) {
    this.panel = panel;
    this.luck = luck;
    this.effort = 0.1 + 0.25 * luck.share();
  }

  /** One reading such as occurs, never a slip. */
  Reading sensible(String name) {
    Signal signal = panel.signal(name);
    return signal.type() instanceof Type.Choice choice
        ? new Reading.Chosen(name, luck.oneOf(choice.options()))
        : measured(signal, inside(signal, usual(signal)));
  }

  /** What is read together, as it is now. */
  List<Reading> read(List<String> signals) {
    effort = Math.max(0.02, Math.min(0.98, effort + 0.06 * luck.share() - 0.02));
    List<Reading> readings = new ArrayList<>();
    for (String name : signals) {
      Signal signal = panel.signal(name);
      readings.add(
          signal.type() instanceof Type.Measure ? measured(signal, value(signal)) : sensible(name));
    }
    return luck.chance(0.02) ? readings : ordered(readings);
  }

  private double value(Signal signal) {
    List<Double> figures = panel.figures(signal);
    Panel.Span possible = panel.possible(signal);
    int dice = luck.below(100);
    if (dice < 8 && !figures.isEmpty()) {
      double beside = luck.oneOf(figures) + luck.between(-1, 1) * panel.step(signal);
      return inside(signal, beside);
    } else if (dice < 11) {
      return inside(signal, possible.at(luck.share()));
    } else if (dice < 12) {
      return possible.high() + 2 * panel.step(signal);
    }
    return inside(signal, usual(signal));
  }

  private double usual(Signal signal) {
    double noise = 0.03 * (luck.share() - 0.5);
    return panel.usual(signal).at(Math.max(0, Math.min(1, effort + noise)));
  }

  // On a step that can be read, and that is possible.
  private double inside(Signal signal, double value) {
    Panel.Span possible = panel.possible(signal);
    double step = panel.step(signal);
    double from = panel.scale(signal.name()).map(Scale::low).orElse(0.0);
    double rounded = from + Math.rint((value - from) / step) * step;
    return Math.max(possible.low(), Math.min(possible.high(), rounded));
  }

  private Reading measured(Signal signal, double value) {
    Optional<Duration> counted = counted(signal);
    Optional<Quantity> step = Optional.empty();
    double shown = value;
    if (counted.isPresent() && luck.chance(0.25)) {
      // A pulse that is counted is known to a beat of the count.
      double beat = MINUTE / counted.get().toMillis();
      shown = Math.rint(value / beat) * beat;
      step = Optional.of(Quantity.ofBase(beat, panel.unit(signal)));
    }
    return new Measured(
        signal.name(),
        Quantity.ofBase(shown, panel.unit(signal)).rounded(3),
        step,
        panel.scale(signal.name()).map(Scale::name));
  }

  private Optional<Duration> counted(Signal signal) {
    return Panel.kind(signal) != Kind.HEART_RATE
        ? Optional.empty()
        : panel
            .protocol()
            .schedule()
            .lineOf(signal.name())
            .map(MeasureLine::over)
            .filter(over -> !over.isZero());
  }

  // The lower of two pressures lies below the upper one, but for a slip.
  private List<Reading> ordered(List<Reading> readings) {
    List<Reading> ordered = new ArrayList<>(readings);
    for (int i = 0; i < ordered.size(); i++) {
      Signal signal = panel.signal(ordered.get(i).subject());
      for (Reading other : readings) {
        boolean above = signal.below().filter(other.subject()::equals).isPresent();
        if (above
            && ordered.get(i) instanceof Measured lower
            && other instanceof Measured upper
            && lower.value().base() >= upper.value().base()) {
          double least = panel.possible(signal).low();
          double below = Math.max(least, inside(signal, 0.7 * upper.value().base()));
          ordered.set(i, measured(signal, below));
        }
      }
    }
    return ordered;
  }
}
