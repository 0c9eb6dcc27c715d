package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.OptionalInt;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** The events so far, as a chain that grows without copying. Immutable. */
final class History {

  static final History EMPTY = new History();

  private final int size;
  private final @Nullable History before;
  private final @Nullable Event last;
  private final @Nullable Event counted;
  private final Set<String> answered;

  private History() {
    this.size = 0;
    this.before = null;
    this.last = null;
    this.counted = null;
    this.answered = Set.of();
  }

  private History(History before, Event last, Event counted, Set<String> answered) {
    this.size = before.size + 1;
    this.before = before;
    this.last = last;
    this.counted = counted;
    this.answered = answered;
  }

  int size() {
    return size;
  }

  /**
   * With one more event.
   *
   * @param event as it was told
   * @param counted as it counts, after what was told later about it
   * @param answered the rules whose word the tester heard when it was done, and answered with it
   */
  History and(Event event, Event counted, Set<String> answered) {
    return new History(this, event, counted, answered);
  }

  /** For each event, in order, the rules whose word the tester answered with it. */
  List<Set<String>> answered() {
    List<Set<String>> all = new ArrayList<>(size);
    for (History link = this; link != null && link.last != null; link = link.before) {
      all.add(link.answered);
    }
    Collections.reverse(all);
    return List.copyOf(all);
  }

  /** What was read at a moment, as it counts, in the order in which it was told. */
  List<Reading> takenAt(Duration moment) {
    List<Reading> taken = new ArrayList<>();
    for (Event.Read read : takenSince(moment)) {
      if (read.taken().equals(moment)) {
        taken.addAll(read.readings());
      }
    }
    return taken;
  }

  /** The number of the event whose reading of a signal at a moment counts, if there is one. */
  OptionalInt numberOf(String subject, Duration moment) {
    for (History link = this; link != null && link.last != null; link = link.before) {
      if (link.counted instanceof Event.Read read
          && read.taken().equals(moment)
          && read.subjects().contains(subject)) {
        return OptionalInt.of(link.size);
      }
    }
    return OptionalInt.empty();
  }

  /** The events that told what was read from a moment on, as they count, in order. */
  List<Event.Read> takenSince(Duration moment) {
    List<Event.Read> reads = new ArrayList<>();
    for (History link = this; link != null && link.last != null; link = link.before) {
      // What was told before a moment was not taken at it.
      if (link.last.at().compareTo(moment) < 0) {
        break;
      }
      if (link.counted instanceof Event.Read read && read.taken().compareTo(moment) >= 0) {
        reads.add(read);
      }
    }
    Collections.reverse(reads);
    return reads;
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
