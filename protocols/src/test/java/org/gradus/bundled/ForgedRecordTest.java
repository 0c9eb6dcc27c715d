package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.gradus.bundled.Walks.ines;
import static org.gradus.bundled.Walks.walking;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Times.at;
import static org.gradus.unit.Quantities.mph;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.gradus.diagnostic.RecordRefused;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
import org.gradus.report.Report;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Ledger;
import org.gradus.session.Loading;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/** Records that tell what no live session would have let happen, with check sums that are right. */
class ForgedRecordTest {

  private static final Library LIBRARY = Bundled.library();

  /** The record of a session with these events behind its own, written and read. */
  private static TestRecord forged(Session session, Event... more) {
    return TestRecord.parse("forged.jsonl", unwritten(session, more).text());
  }

  /** The same as a host could put it together, with what no written record can say. */
  private static TestRecord unwritten(Session session, Event... more) {
    TestRecord honest = TestRecord.of(session, Optional.empty());
    List<TestRecord.Entry> entries = new ArrayList<>(honest.entries());
    for (Event event : more) {
      entries.add(
          new TestRecord.Entry(entries.size() + 1, event, "so it says", "", List.of(), false));
    }
    return new TestRecord(honest.title(), entries);
  }

  private static void isRefused(TestRecord record, int event, String... says) {
    isRefused(event, says, () -> record.verify(LIBRARY));
    isRefused(event, says, () -> record.resume(LIBRARY, Ledger.NONE));
    isRefused(event, says, () -> Report.of(record, LIBRARY));
  }

  private static void isRefused(int event, String[] says, ThrowingCallable use) {
    assertThatExceptionOfType(RecordRefused.class)
        .isThrownBy(use)
        .withMessageContaining("event " + event + " of the record")
        .satisfies(refused -> assertThat(refused.getMessage()).contains(says));
  }

  private static Session stopped() {
    Session session = walking(ines(), 112, 113);
    session.follow(session.decide(at("3:00")));
    session.follow(session.report(at("3:20"), "chest_pain"));
    return session;
  }

  @Test
  void toGoOnAfterAStopIsRefusedByTheNumberOfTheEvent() {
    Loading speed = new Loading("speed", Quantity.of(60, Unit.KMH));
    Loading grade = new Loading("grade", Quantity.of(90, Unit.PERCENT));
    Verdict on = new Verdict.Advance("walk_3", List.of(speed, grade));
    isRefused(
        forged(stopped(), new Event.Followed(on, at("3:30"))),
        8,
        "to follow ADVANCE to walk_3 at 60 km/h, 90 % is not possible at 3:30",
        "recommended then is CONTINUE until 18:20",
        "use the events before it");
    isRefused(
        forged(stopped(), new Event.Overridden(on, "she wants to go on", at("3:30"))),
        8,
        "not possible after a stop");
  }

  @Test
  void toAdvanceWhileAStopHoldsIsRefused() {
    Session session = walking(ines(), 112, 113);
    Verdict next = session.decide(at("3:00")).verdict();
    session.report(at("3:00"), "chest_pain");
    isRefused(
        forged(session, new Event.Followed(next, at("3:01"))),
        6,
        "to follow ADVANCE to walk_2",
        "recommended then is STOP: Take the load away",
        "chest-pain");
  }

  @Test
  void anotherLoadOrTimeThanWasRecommendedIsRefused() {
    Session session = walking(ines(), 112, 113);
    isRefused(
        forged(
            session,
            new Event.Followed(
                new Verdict.Advance(
                    "walk_2",
                    List.of(
                        new Loading("speed", mph(2.6)),
                        new Loading("grade", Quantity.of(12, Unit.PERCENT)))),
                at("3:00"))),
        5,
        "ADVANCE to walk_2 at 2.6 mph, 12 %",
        "recommended then is ADVANCE to walk_2 at 2.5 mph, 12 % (next)");
    Session unsteady = walking(ines(), 102, 113);
    isRefused(
        forged(unsteady, new Event.Followed(new Verdict.Hold(at("4:30")), at("3:00"))),
        5,
        "HOLD until 4:30",
        "HOLD until 4:00 (not-yet-steady)");
    isRefused(
        forged(unsteady, new Event.Followed(new Verdict.Advance("walk_1"), at("3:00"))),
        5,
        "ADVANCE to walk_1");
  }

  // A hold of 292 million years once took all memory.
  @Test
  void whatNobodyCanHaveFollowedIsRefusedAtOnce() {
    isRefused(
        forged(Walks.ready(ines()), new Event.Followed(new Verdict.Finish(), at("0:01"))),
        2,
        "FINISH",
        "READY: begin walk_1");
    Duration ages = Duration.ofSeconds(Long.MAX_VALUE);
    isRefused(
        unwritten(walking(ines()), new Event.Followed(new Verdict.Hold(ages), at("0:01"))),
        3,
        "HOLD until",
        "CONTINUE until 3:00");
  }

  @Test
  void aRampThatIsSetByHandTakesASecondOrMoreForEachStep() {
    for (Duration every : List.of(Duration.ofNanos(100_000), Duration.ofSeconds(Long.MAX_VALUE))) {
      Loading.Ramp ramp = new Loading.Ramp(mph(0.1), every, mph(3));
      Loading rising = new Loading("speed", mph(2), Optional.of(ramp));
      isRefused(unwritten(walking(ines()), new Event.LoadSet(rising, at("0:01"))), 3, "speed");
    }
  }

  @Test
  void nothingIsFollowedThatDoesNothing() {
    Decision goOn = walking(ines()).decide(at("0:10"));
    isRefused(
        forged(walking(ines()), new Event.Followed(goOn.verdict(), at("0:10"))),
        3,
        "CONTINUE until 3:00");
  }

  @Test
  void aTestThatIsOverGoesOnWithNothing() {
    Session over = walking(ines());
    over.abandon(at("1:00"), "the bell rang");
    isRefused(forged(over, new Event.Abandoned("again", at("1:10"))), 4, "it is over already");
    isRefused(
        forged(over, new Event.Followed(new Verdict.Finish(), at("1:10"))), 4, "OVER, abandoned");
  }

  /** What was followed was right by what was known then, whatever was told later. */
  @Test
  void whatWasPutRightLaterDoesNotMakeARecordForged() {
    Session session = walking(ines(), 102, 113);
    session.follow(session.decide(at("3:00")));
    assertThat(session.events()).hasSize(5);
    session.amend(at("3:20"), 3, heartRate(112), "misheard");
    session.follow(session.record(at("4:00"), heartRate(114)));
    TestRecord record = TestRecord.of(session, Optional.empty());
    assertThat(record.entries().get(5).hindsight()).hasSize(1);
    assertThat(record.verify(LIBRARY)).isEmpty();
    assertThat(record.resume(LIBRARY, Ledger.NONE).decide(at("5:00")))
        .isEqualTo(session.decide(at("5:00")));
    // By what is known now it could not have been followed; by what was known then, it was.
    isRefused(
        forged(session, new Event.Followed(new Verdict.Hold(at("4:00")), at("4:01"))), 9, "HOLD");
  }
}
