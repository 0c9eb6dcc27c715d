package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** The readings of one stage by the due times they count for. Immutable. */
final class Slots {

  static final Slots EMPTY = new Slots(new Slot[0]);

  // Looked through at every event.
  private final Slot[] filled;

  private Slots(Slot[] filled) {
    this.filled = filled;
  }

  /**
   * A due time with its readings. Of most there is just one, which is kept without a list of its
   * own: a host may hold very many tests at a time.
   *
   * @param signal which signal
   * @param due the due time, in milliseconds since the start of the stage
   * @param last the reading told last
   * @param lastInStretch whether it was taken in the stretch over which the signal is averaged
   * @param earlier the readings told before it that were taken in that stretch
   */
  private record Slot(
      String signal, int due, Taken last, boolean lastInStretch, List<Taken> earlier) {

    private boolean is(String wanted, long at) {
      return due == at && signal.equals(wanted);
    }

    private List<Taken> stretch() {
      if (!lastInStretch) {
        return earlier;
      }
      return earlier.isEmpty()
          ? List.of(last)
          : Stream.concat(earlier.stream(), Stream.of(last)).toList();
    }

    // A strap gives many readings in its stretch and counts by their mean. A count or a cuff gives
    // one, and where it is repeated the later one stands.
    private Taken value() {
      int many = earlier.size() + (lastInStretch ? 1 : 0);
      return many > 1 ? Taken.mean(stretch()) : last;
    }
  }

  /** The reading that counts for a due time. */
  Optional<Taken> at(String signal, Duration due) {
    long at = due.toMillis();
    for (Slot slot : filled) {
      if (slot.is(signal, at)) {
        return Optional.of(slot.value());
      }
    }
    return Optional.empty();
  }

  boolean hasAny(String signal) {
    for (Slot slot : filled) {
      if (slot.signal.equals(signal)) {
        return true;
      }
    }
    return false;
  }

  /**
   * With one more reading.
   *
   * @param inStretch whether it was taken in the stretch over which the signal is averaged
   */
  Slots with(String signal, Duration due, Taken taken, boolean inStretch) {
    int at = Math.toIntExact(due.toMillis());
    List<Slot> others = new ArrayList<>(filled.length + 1);
    List<Taken> earlier = List.of();
    for (Slot slot : filled) {
      if (slot.is(signal, at)) {
        earlier = slot.stretch();
      } else {
        others.add(slot);
      }
    }
    others.add(new Slot(signal, at, taken, inStretch, earlier));
    return new Slots(others.toArray(Slot[]::new));
  }
}
