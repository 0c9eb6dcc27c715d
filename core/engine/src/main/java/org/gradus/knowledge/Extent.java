package org.gradus.knowledge;

import java.util.Optional;
import org.gradus.unit.Quantity;

/**
 * A stretch of a printed table, open at one end or at none: {@code 40 % to 59 %}, {@code below 30
 * %}, {@code from 90 %}.
 *
 * @param from its printed lower end
 * @param to its printed upper end; with no lower end the value that is no longer in it
 */
public record Extent(Optional<Quantity> from, Optional<Quantity> to) {

  /** As it is printed. */
  @Override
  public String toString() {
    if (from.isEmpty()) {
      return to.map(end -> "below " + end).orElse("any");
    }
    return to.map(end -> span(from.get(), end)).orElse("from " + from.get());
  }

  private static String span(Quantity low, Quantity high) {
    return low.unit() == high.unit()
        ? Quantity.plain(low.amount()) + " to " + high
        : low + " to " + high;
  }
}
