package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.gradus.protocol.MeasureLine;

/** The readings of one stage by the due times they count for. Immutable. */
final class ReadingSlots {

  static final ReadingSlots EMPTY = new ReadingSlots(new Slot[0]);

  // Searched at every event.
  private final Slot[] filled;

  private ReadingSlots(Slot[] filled) {
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
      String signal,
      int due,
      StoredReading last,
      boolean lastInStretch,
      List<StoredReading> earlier) {

    private boolean is(String wanted, long at) {
      return due == at && signal.equals(wanted);
    }

    private List<StoredReading> stretch() {
      if (!lastInStretch) {
        return earlier;
      }
      return earlier.isEmpty()
          ? List.of(last)
          : Stream.concat(earlier.stream(), Stream.of(last)).toList();
    }

    // A strap gives many readings in its stretch and counts by their mean. A count or a cuff gives
    // one, and where it is repeated the later one stands.
    private StoredReading value() {
      int many = earlier.size() + (lastInStretch ? 1 : 0);
      return many > 1 ? StoredReading.mean(stretch()) : last;
    }
  }

  /** The reading that counts for a due time. */
  Optional<StoredReading> at(String signal, Duration due) {
    long at = due.toMillis();
    for (Slot slot : filled) {
      if (slot.is(signal, at)) {
        return Optional.of(slot.value());
      }
    }
    return Optional.empty();
  }

  /** The newest due time with a reading of a signal, not after a moment; both since the start. */
  Optional<Duration> newest(String signal, Duration moment) {
    int newest = -1;
    for (Slot slot : filled) {
      boolean counts = slot.signal.equals(signal) && slot.due <= moment.toMillis();
      newest = counts ? Math.max(newest, slot.due) : newest;
    }
    return newest < 0 ? Optional.empty() : Optional.of(Duration.ofMillis(newest));
  }

  boolean hasAny(String signal) {
    return hasAnyFrom(signal, Duration.ZERO);
  }

  /** Whether there is a reading of a signal for a due time not before a moment since the start. */
  boolean hasAnyFrom(String signal, Duration moment) {
    for (Slot slot : filled) {
      if (slot.signal.equals(signal) && slot.due >= moment.toMillis()) {
        return true;
      }
    }
    return false;
  }

  /**
   * With one more reading.
   *
   * @param line the line of the schedule that it counts for
   * @param start when the due times begin to count, since the start of the session
   */
  ReadingSlots with(
      String signal, MeasureLine line, Duration start, Duration due, StoredReading taken) {
    Duration dueTime = start.plus(due);
    boolean inStretch =
        taken.time().compareTo(dueTime) <= 0
            && taken.time().compareTo(dueTime.minus(line.over())) > 0;
    int at = Math.toIntExact(due.toMillis());
    List<Slot> others = new ArrayList<>(filled.length + 1);
    List<StoredReading> earlier = List.of();
    for (Slot slot : filled) {
      if (slot.is(signal, at)) {
        earlier = slot.stretch();
      } else {
        others.add(slot);
      }
    }
    others.add(new Slot(signal, at, taken, inStretch, earlier));
    return new ReadingSlots(others.toArray(Slot[]::new));
  }
}
