package org.gradus.session;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.ReadingRefused;

/**
 * A verdict that would have been different if a later reading had been known. What was followed
 * stands.
 *
 * @param event the number of the event that followed it
 * @param then what was recommended then
 * @param now what would have been recommended
 */
public record Hindsight(int event, String then, String now) {
  public Hindsight {
    requireNonNull(now, "now");
    requireNonNull(then, "then");
  }

  @Override
  public String toString() {
    return "event " + event + " would have been " + now + ", not " + then;
  }

  /** The answer to an event, with the earlier verdicts that it would have changed. */
  static Decision answer(TestState before, Event event, StateAt after) {
    Decision answer = Judge.at(after);
    Optional<Duration> since = since(event);
    boolean late =
        since.isPresent()
            && before.events.inOrder().stream()
                .anyMatch(old -> isFollowed(old) && old.at().compareTo(since.get()) >= 0);
    return late ? answer.with(of(before, event, after.state())) : answer;
  }

  // From when on what is told says something; empty for what is told as it happens.
  private static Optional<Duration> since(Event event) {
    if (event instanceof Event.Read read && read.taken().compareTo(read.at()) < 0) {
      return Optional.of(read.taken());
    }
    return event.corrects().isPresent() ? Optional.of(Duration.ZERO) : Optional.empty();
  }

  private static boolean isFollowed(Event event) {
    return event instanceof Event.Followed;
  }

  private static List<Hindsight> of(TestState before, Event event, TestState after) {
    List<Event> told = before.events.inOrder();
    List<String> then = verdicts(before, Amendments.counted(told));
    List<String> now;
    try {
      now = verdicts(before, inTime(after, event));
    } catch (ReadingRefused impossible) {
      // It would have been refused in time, so it would have changed nothing.
      return List.of();
    }
    List<Hindsight> different = new ArrayList<>();
    int verdict = 0;
    for (int i = 0; i < told.size(); i++) {
      if (isFollowed(told.get(i))) {
        if (!then.get(verdict).equals(now.get(verdict))) {
          different.add(new Hindsight(i + 1, then.get(verdict), now.get(verdict)));
        }
        verdict++;
      }
    }
    return different;
  }

  // The events as they count by now; a late reading as if it had been told when it was taken.
  private static List<Event> inTime(TestState after, Event event) {
    List<Event> counted = new ArrayList<>(Amendments.counted(after.events.inOrder()));
    if (!(event instanceof Event.Read late)) {
      return counted;
    }
    counted.remove(counted.size() - 1);
    int place = 0;
    while (place < counted.size() && isBefore(counted.get(place), late.taken())) {
      place++;
    }
    counted.add(place, new Event.Read(late.readings(), late.taken(), late.taken()));
    return counted;
  }

  private static boolean isBefore(Event event, Duration taken) {
    int order = event.at().compareTo(taken);
    return order < 0 || (order == 0 && !isFollowed(event));
  }

  /** What is recommended at each verdict that was followed, in order. */
  private static List<String> verdicts(TestState start, List<Event> events) {
    List<String> verdicts = new ArrayList<>();
    TestState now = TestState.begin(start.protocol, start.person);
    for (Event event : events) {
      if (isFollowed(event)) {
        verdicts.add(Judge.decide(now, event.at()).said());
      }
      now = EventApplier.apply(now, event, event, Optional.empty()).state();
    }
    return verdicts;
  }
}
