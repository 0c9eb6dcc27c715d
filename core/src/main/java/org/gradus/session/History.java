package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** The events so far, as a chain that grows without copying. Immutable. */
final class History {

  static final History EMPTY = new History();

  private final int size;
  private final @Nullable History before;
  private final @Nullable Event last;

  private History() {
    this.size = 0;
    this.before = null;
    this.last = null;
  }

  private History(History before, Event last) {
    this.size = before.size + 1;
    this.before = before;
    this.last = last;
  }

  int size() {
    return size;
  }

  History and(Event event) {
    return new History(this, event);
  }

  /** What was read at a moment, in the order in which it was told. */
  List<Reading> takenAt(Duration moment) {
    List<Reading> readings = new ArrayList<>();
    for (History link = this; link != null && link.last != null; link = link.before) {
      // What was told before a moment was not taken at it.
      if (link.last.at().compareTo(moment) < 0) {
        break;
      }
      if (link.last instanceof Event.Read read && read.taken().equals(moment)) {
        readings.addAll(0, read.readings());
      }
    }
    return readings;
  }

  List<Event> inOrder() {
    List<Event> events = new ArrayList<>(size);
    for (History link = this; link != null && link.last != null; link = link.before) {
      events.add(link.last);
    }
    Collections.reverse(events);
    return List.copyOf(events);
  }
}
