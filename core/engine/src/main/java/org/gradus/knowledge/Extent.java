package org.gradus.knowledge;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import org.gradus.unit.Quantity;
import org.gradus.words.Message;

/**
 * A stretch of a printed table, open at one end or at none: {@code 40 % to 59 %}, {@code below 30
 * %}, {@code from 90 %}.
 *
 * @param from its printed lower end
 * @param to its printed upper end; with no lower end the value that is no longer in it
 */
public record Extent(Optional<Quantity> from, Optional<Quantity> to) {
  public Extent {
    requireNonNull(from, "from");
    requireNonNull(to, "to");
  }

  /** As it is printed, to be said in any language. */
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
