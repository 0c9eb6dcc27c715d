package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;
import org.gradus.knowledge.Citation;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.QuantityRange;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;

/**
 * Something that is read during a test.
 *
 * @param name the name rules use: {@code heart_rate}
 * @param type what a reading is: a measure, or one of some words
 * @param range what is physically possible, both ends included; only for measures
 * @param step the step to which a plain reading can be read, if it has one
 * @param below another signal that must be higher when both are read together
 * @param source where its range comes from
 */
public record Signal(
    String name,
    Type type,
    Optional<QuantityRange> range,
    Optional<Quantity> step,
    Optional<String> below,
    Citation source) {
  public Signal {
    requireNonNull(below, "below");
    requireNonNull(name, "name");
    requireNonNull(range, "range");
    requireNonNull(source, "source");
    requireNonNull(step, "step");
    requireNonNull(type, "type");
  }

  /**
   * The unit in which its readings are shown: that of its range, as its file writes it, so that a
   * saturation declared in per cent is 90 % and not 0.9. Only for measures.
   */
  public Unit unit() {
    Kind kind = ((Type.Measure) type).kind();
    return range
        .map(limits -> limits.low().unit())
        .or(() -> step.map(Quantity::unit))
        .orElse(kind.base());
  }

  /** A signal whose readings are words. */
  public static Signal choice(String name, List<String> words) {
    requireNonNull(name, "name");
    requireNonNull(words, "words");
    return new Signal(
        name,
        new Type.Choice(words),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Citation.NONE);
  }
}
