package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** The readings of one stage by the due times they count for. Immutable. */
record Slots(List<Slot> filled) {

  static final Slots EMPTY = new Slots(List.of());

  Slots {
    filled = List.copyOf(filled);
  }

  /**
   * A due time with its readings.
   *
   * @param signal which signal
   * @param due the due time, since the start of the stage
   * @param stretch the readings taken in the stretch over which the signal is averaged
   * @param last the reading told last
   */
  record Slot(String signal, Duration due, List<Taken> stretch, Taken last) {
    Slot {
      stretch = List.copyOf(stretch);
    }

    private boolean is(String wanted, Duration at) {
      return due.equals(at) && signal.equals(wanted);
    }

    // A strap gives many readings in its stretch and counts by their mean. A count or a cuff gives
    // one, and where it is repeated the later one stands.
    private Taken value() {
      return stretch.size() > 1 ? Taken.mean(stretch) : last;
    }
  }

  /** The reading that counts for a due time. */
  Optional<Taken> at(String signal, Duration due) {
    return filled.stream().filter(slot -> slot.is(signal, due)).map(Slot::value).findFirst();
  }

  boolean hasAny(String signal) {
    return filled.stream().anyMatch(slot -> slot.signal().equals(signal));
  }

  /**
   * With one more reading.
   *
   * @param inStretch whether it was taken in the stretch over which the signal is averaged
   */
  Slots with(String signal, Duration due, Taken taken, boolean inStretch) {
    List<Slot> others = new ArrayList<>();
    List<Taken> stretch = new ArrayList<>();
    for (Slot slot : filled) {
      if (slot.is(signal, due)) {
        stretch.addAll(slot.stretch());
      } else {
        others.add(slot);
      }
    }
    if (inStretch) {
      stretch.add(taken);
    }
    others.add(new Slot(signal, due, stretch, taken));
    return new Slots(others);
  }
}
