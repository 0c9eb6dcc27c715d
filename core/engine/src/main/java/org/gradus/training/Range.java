package org.gradus.training;

import java.util.Optional;
import org.gradus.unit.Quantity;

/**
 * From one value to another, open where a band has no end.
 *
 * @param from the lower end
 * @param to the upper end
 */
public record Range(Optional<Quantity> from, Optional<Quantity> to) {

  /** Both ends rounded, for showing. */
  public Range rounded(int decimals) {
    return new Range(
        from.map(low -> low.rounded(decimals)), to.map(high -> high.rounded(decimals)));
  }

  @Override
  public String toString() {
    if (from.isEmpty()) {
      return to.map(high -> "below " + high).orElse("any");
    } else if (to.isEmpty()) {
      return "from " + from.get();
    }
    return from.get().unit() == to.get().unit()
        ? Quantity.plain(from.get().amount()) + " to " + to.get()
        : from.get() + " to " + to.get();
  }
}
