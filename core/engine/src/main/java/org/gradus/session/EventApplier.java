package org.gradus.session;

import java.time.Duration;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.rule.plan.Frame;
import org.gradus.words.FileText;
import org.gradus.words.Message;

/** Applies an event to the state of a test. An event that is refused changes nothing. */
final class EventApplier {

  private EventApplier() {}

  /** Takes in an event as it is told, and refuses what cannot be told or done at its moment. */
  static StateAt apply(TestState state, Event event) {
    refuseTooLong(event);
    if (event.corrects().isPresent()) {
      return amend(state, event);
    }
    StateAt now = moment(state, event);
    switch (event.kind()) {
      case FOLLOWED ->
          new Following(Judge.at(now)).refuseUnlessPossible(((Event.Followed) event).verdict());
      case OVERRIDDEN -> new Overriding(now.state()).refuseUnlessPossible((Event.Overridden) event);
      case ABANDONED -> new Overriding(now.state()).refuseUnlessPossible((Event.Abandoned) event);
      case READ, REPORTED, WITHDRAWN, AMENDED, REJECTED, LOAD_SET, DONE -> {
        // Refused, if it is, when it is put in its place.
      }
    }
    return apply(now, event, event, AnsweredRules.of(event, now));
  }

  /** The same for a verdict that is followed, where what is decided at its moment is known. */
  static StateAt follow(TestState state, Event.Followed event, Decision decision) {
    return follow(moment(state, event), event, decision);
  }

  private static StateAt follow(StateAt now, Event.Followed event, Decision decision) {
    new Following(decision).refuseUnlessPossible(event.verdict());
    return apply(now, event, event, AnsweredRules.of(event, now));
  }

  /** Takes in an event of another test as if it had happened in this one: what was done stands. */
  static StateAt suppose(TestState state, Event event) {
    return event.corrects().isPresent()
        ? amend(state, event)
        : apply(state, event, event, Optional.empty());
  }

  private static StateAt amend(TestState state, Event event) {
    refuseWithoutReason(event);
    return Amendments.apply(state, event);
  }

  /**
   * Takes in an event that was told before, once more. What was done stands, whatever would be
   * recommended by what is known now.
   *
   * @param told the event as it was told, for the record
   * @param event the event as it counts, after what was told later about it
   * @param past what it meant when it was told, if that is some time ago
   */
  static StateAt apply(TestState state, Event told, Event event, Optional<AnsweredRules> past) {
    StateAt now = moment(state, event);
    return apply(now, told, event, past.orElseGet(() -> AnsweredRules.of(event, now)));
  }

  private static StateAt moment(TestState state, Event event) {
    Times.refuseImpossible(SessionMessage.AN_EVENT, event.at());
    if (event.at().compareTo(state.now) < 0) {
      throw new ReadingRefused(
          Code.G503, SessionMessage.AN_EVENT, Times.clock(event.at()), Times.clock(state.now));
    }
    return StateAt.of(state, event.at());
  }

  private static StateAt apply(StateAt now, Event told, Event event, AnsweredRules act) {
    refuseWithoutReason(event);
    TestState before = now.state();
    Map<String, StoredReading> readings = new HashMap<>();
    TestState after =
        before.with(
            change -> {
              change.now = event.at();
              change.events = change.events.and(told, event, act.answered());
              readings.putAll(event.accept(new EventEffect(now, act, change)));
            });
    Map<String, Duration> news = new HashMap<>();
    if (event instanceof Event.Reported reported) {
      news.put(reported.sign(), reported.at());
    }
    readings.forEach((signal, taken) -> news.put(signal, taken.time()));
    StateAt happened = StateAt.after(after);
    // A late reading of the exercise is looked at once; it does not become one of recovery.
    boolean late = !after.readings.latest().keySet().containsAll(readings.keySet());
    if (late) {
      Frame withLate =
          FrameFiller.by(
              PersistentCollections.and(readings, after.readings.latest()), after, after.now);
      happened = happened.with(StopMonitor.look(happened, withLate, news));
    }
    StateAt looked =
        happened.with(StopMonitor.look(happened, happened.latest(), late ? Map.of() : news));
    return looked.with(StageJudge.keepUndecided(looked));
  }

  // A record has room for so much, and what cannot be recorded has not happened.
  private static void refuseTooLong(Event event) {
    int length = event.reason().length();
    if (length > Telling.LONGEST_REASON) {
      throw new ReadingRefused(
          Code.G511,
          SessionMessage.THE_REASON,
          Integer.toString(length),
          Integer.toString(Telling.LONGEST_REASON));
    }
  }

  // An override or the end of a test without a reason is refused with what is possible instead.
  private static void refuseWithoutReason(Event event) {
    Optional<Message> what =
        switch (event.kind()) {
          case WITHDRAWN ->
              Optional.of(
                  Message.of(
                      SessionMessage.NAMED_AS_WITHDRAWN,
                      new FileText(((Event.Withdrawn) event).sign())));
          case AMENDED -> Optional.of(Message.of(SessionMessage.AN_AMENDMENT));
          case REJECTED ->
              Optional.of(
                  Message.of(
                      SessionMessage.NAMED_AS_REJECTED,
                      new FileText(((Event.Rejected) event).subject())));
          case READ, REPORTED, LOAD_SET, DONE, FOLLOWED, OVERRIDDEN, ABANDONED -> Optional.empty();
        };
    if (what.isPresent() && event.reason().isBlank()) {
      throw new ReadingRefused(
          Code.G510, what.get(), SessionMessage.WITHOUT_A_REASON, SessionMessage.SAY_WHY);
    }
  }
}
