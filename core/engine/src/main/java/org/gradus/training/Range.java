package org.gradus.training;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import org.gradus.knowledge.ResultMessage;
import org.gradus.unit.Quantity;
import org.gradus.words.Message;

/**
 * From one value to another, open where a band has no end.
 *
 * @param from the lower end
 * @param to the upper end
 */
public record Range(Optional<Quantity> from, Optional<Quantity> to) {
  public Range {
    requireNonNull(from, "from");
    requireNonNull(to, "to");
  }

  /** Both ends rounded, for showing. */
  public Range rounded(int decimals) {
    return new Range(
        from.map(low -> low.rounded(decimals)), to.map(high -> high.rounded(decimals)));
  }

  /** Both ends, to be said in any language. */
  public Message message() {
    if (from.isEmpty()) {
      return to.map(end -> Message.of(ResultMessage.BELOW, end))
          .orElse(Message.of(ResultMessage.ANY));
    }
    return to.map(end -> span(from.get(), end))
        .orElseGet(() -> Message.of(ResultMessage.FROM, from.get()));
  }

  private static Message span(Quantity low, Quantity high) {
    Object lower = low.unit() == high.unit() ? Quantity.plain(low.amount()) : low;
    return Message.of(ResultMessage.RANGE, lower, high);
  }

  @Override
  public String toString() {
    return message().toString();
  }
}
