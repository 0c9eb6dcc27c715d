package org.gradus.unit;

import static java.util.Objects.requireNonNull;

import org.gradus.words.Language;
import org.gradus.words.Message;
import org.gradus.words.Spoken;

/**
 * A range of quantities.
 *
 * @param low its lower end, included
 * @param high its upper end, included
 */
public record QuantityRange(Quantity low, Quantity high) implements Spoken {
  public QuantityRange {
    requireNonNull(high, "high");
    requireNonNull(low, "low");
  }

  /** Whether a value in the base unit lies in it. */
  public boolean holds(double value) {
    return value >= low.base() && value <= high.base();
  }

  @Override
  public String in(Language language) {
    return language.say(Message.of(QuantityMessage.RANGE, low, high));
  }

  /** One value or the other: {@code "180 mmHg or 200 mmHg"}. */
  public static Message either(Object one, Object other) {
    requireNonNull(one, "one");
    requireNonNull(other, "other");
    return Message.of(QuantityMessage.EITHER, one, other);
  }

  @Override
  public String toString() {
    return in(Language.ENGLISH);
  }
}
