package org.gradus.knowledge;

import static java.util.Objects.requireNonNull;

import org.gradus.unit.Quantity;
import org.gradus.unit.QuantityRange;
import org.gradus.words.FileText;
import org.gradus.words.Message;

/**
 * The values that a result can have in a living person. An answer outside is a mistake in what it
 * was made from, and is never shown as the result of a test.
 *
 * @param result the result: {@code vo2max}
 * @param range the values it can have, both ends included
 * @param check what to look at when an answer lies outside: {@code "mass, heart rates and loads"}
 * @param source its citation
 */
public record PlausibleRange(String result, QuantityRange range, String check, Citation source) {
  public PlausibleRange {
    requireNonNull(check, "check");
    requireNonNull(range, "range");
    requireNonNull(result, "result");
    requireNonNull(source, "source");
  }

  /** Whether a value, in the base unit of its kind, can be. */
  public boolean holds(double base) {
    return range.holds(base);
  }

  /** What to say of a value outside: {@code "implausible: 380 mL/kg/min; check mass"}. */
  public Message against(Quantity value) {
    requireNonNull(value, "value");
    return Message.of(ResultMessage.IMPLAUSIBLE_CHECK, value, new FileText(check));
  }
}
