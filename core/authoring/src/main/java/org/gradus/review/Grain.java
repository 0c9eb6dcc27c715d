package org.gradus.review;

import java.time.Duration;
import java.util.Arrays;
import java.util.Optional;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Fact;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Scale;
import org.gradus.protocol.Signal;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.plan.Frame;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;

/** How finely something can be read, how far it usually reaches, and how it is written. */
final class Grain {

  private static final Duration MINUTE = Duration.ofMinutes(1);

  private Grain() {}

  /** The step to which a reading can be read: a beat more or less in a count, a line on a cuff. */
  static double step(Protocol protocol, String signal) {
    Optional<Signal> known = Optional.ofNullable(protocol.instruments().signals().get(signal));
    double own = known.flatMap(Signal::step).map(Quantity::base).orElse(0.0);
    Optional<MeasureLine> line = protocol.schedule().lineOf(signal);
    boolean counted =
        known.filter(some -> some.type().equals(new Type.Measure(Kind.HEART_RATE))).isPresent()
            && line.filter(read -> !read.over().isZero()).isPresent();
    double ofCount =
        counted ? (double) MINUTE.toMillis() / line.orElseThrow().over().toMillis() : 0;
    return Math.max(own, ofCount);
  }

  /** A step for drawing values of anything. */
  static double step(Protocol protocol, Demand demand) {
    Optional<Quantity> step =
        ProtocolParts.signal(protocol, demand)
            .map(protocol.instruments()::signal)
            .flatMap(Signal::step);
    if (step.isPresent()) {
      return step.get().base();
    }
    Optional<Scale> scale =
        ProtocolParts.signal(protocol, demand)
            .flatMap(
                signal ->
                    protocol.instruments().scales().values().stream()
                        .filter(on -> on.of().equals(signal))
                        .findFirst());
    boolean graded =
        demand.aspect() == Aspect.VALUE && protocol.wiring().fact(demand) instanceof Fact.Reported;
    if (scale.isPresent() || graded) {
      return scale.map(Scale::step).orElse(1.0);
    }
    boolean fine = demand.type() instanceof Type.Measure measure && finely(measure.kind());
    return fine ? 0.01 : 1;
  }

  private static boolean finely(Kind kind) {
    return switch (kind) {
      case NUMBER, LENGTH, ABSOLUTE_UPTAKE, SPEED, UPTAKE -> true;
      default -> false;
    };
  }

  /** The lowest value worth drawing. */
  static double low(Protocol protocol, Demand demand, double[] figures) {
    if (isAge(demand)) {
      return protocol.eligibility().youngest();
    }
    return Sampler.usual(protocol, demand)
        .map(usual -> usual.range().low().base())
        .orElse(figures.length == 0 ? -1e3 : -2 * Math.abs(Arrays.stream(figures).max().orElse(1)));
  }

  /** The highest value worth drawing. */
  static double high(Protocol protocol, Demand demand, double[] figures) {
    if (isAge(demand)) {
      return protocol.eligibility().oldest();
    }
    return Sampler.usual(protocol, demand)
        .map(usual -> usual.range().high().base())
        .orElse(figures.length == 0 ? 1e3 : 2 * Math.abs(Arrays.stream(figures).max().orElse(1)));
  }

  private static boolean isAge(Demand demand) {
    return demand.subject().equals(Attribute.AGE.word());
  }

  /** A value with what it is a value of: {@code heart_rate 1:00 earlier 128 bpm}. */
  static String text(Protocol protocol, Demand demand, Frame frame) {
    int slot = protocol.wiring().layout().demands().indexOf(demand);
    String name = name(demand);
    if (!frame.isKnown(slot)) {
      return name + " not known";
    }
    double value = frame.value(slot);
    if (demand.type() instanceof Type.Choice choice) {
      return name + " " + choice.options().get((int) value);
    } else if (demand.type() instanceof Type.Measure measure) {
      Unit unit = unit(protocol, demand, measure.kind());
      return name + " " + EdgeTable.value(Quantity.ofBase(value, unit).rounded(2));
    }
    // A sign that was not reported is no news.
    boolean quiet =
        demand.aspect() == Aspect.VALUE
            && protocol.wiring().fact(demand) instanceof Fact.Reported
            && value == 0;
    return quiet ? "" : name + (value == 0 ? " no" : " yes");
  }

  private static String name(Demand demand) {
    long seconds = Math.round(demand.seconds());
    String stretch = seconds % 60 == 0 ? seconds / 60 + " min" : seconds + " s";
    return switch (demand.aspect()) {
      case EARLIER -> demand.subject() + " " + stretch + " earlier";
      case AVERAGE -> demand.subject() + " on average of " + stretch;
      case HIGHEST -> "highest " + demand.subject();
      case LOWEST -> "lowest " + demand.subject();
      case EVER -> "ever " + demand.subject();
      case COUNT -> "stages with " + demand.subject();
      case COMPLETED -> "completed " + demand.subject();
      case VALUE, LINE_MEAN_X, LINE_MEAN_Y, LINE_SLOPE, INTERPOLATED -> demand.subject();
    };
  }

  /** The unit in which the files speak of something. */
  static Unit unit(Protocol protocol, Demand demand, Kind kind) {
    return ProtocolParts.signal(protocol, demand)
        .flatMap(signal -> protocol.instruments().signal(signal).range())
        .map(range -> range.low().unit())
        .orElse(kind.base());
  }
}
