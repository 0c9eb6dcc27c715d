package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.gradus.bundled.Sessions.assertRefused;
import static org.gradus.bundled.Walks.ines;
import static org.gradus.bundled.Walks.verdict;
import static org.gradus.bundled.Walks.walking;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.measured;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.resting;
import static org.gradus.session.Times.at;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.capacity.Capacity;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.JournalFailed;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.history.TestRecord;
import org.gradus.session.Admission;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Ledger;
import org.gradus.session.Reading;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/** Readings put right or taken back, copies to try things on, and events that are kept. */
class SessionAmendedTest {

  @Test
  void aMisreadRateThatIsPutRightChangesWhatIsDecidedFromNowOn() {
    Session session = walking(ines());
    Decision second = session.record(at("2:00"), heartRate(140));
    assertThat(verdict(session.record(at("3:00"), heartRate(110))))
        .isEqualTo("HOLD not-yet-steady");
    Decision amended =
        session.amend(at("3:05"), second.event(), heartRate(108), "read upside down");
    assertThat(verdict(amended)).isEqualTo("ADVANCE next");
    assertThat(session.events()).anyMatch(Event.Amended.class::isInstance);
    Event first = session.events().get(second.event() - 1);
    assertThat(((Event.Read) first).readings()).containsExactly(heartRate(140));
  }

  @Test
  void aStopThatAMisreadingAloneHadRaisedIsUndone() {
    Session session = walking(ines());
    session.record(at("2:20"), pressure(254, 90));
    Decision stop = session.record(at("2:50"), pressure(252, 90));
    assertThat(verdict(stop)).isEqualTo("STOP systolic-high");
    Decision amended =
        session.amend(at("2:55"), stop.event(), pressure(152, 90), "a slip of the pen");
    assertThat(amended.verdict()).isInstanceOf(Verdict.Continue.class);
  }

  @Test
  void aReadingThatWasTakenBackMakesRoomForTheTrueOne() {
    Session session = walking(ines());
    Decision first = session.record(at("1:00"), heartRate(117));
    session.reject(at("1:10"), first.event(), "heart_rate", "counted somebody else's");
    session.recordTaken(at("1:12"), at("1:00"), heartRate(107));
    assertThat(session.record(at("2:00"), heartRate(110)).verdict())
        .isInstanceOf(Verdict.Continue.class);
  }

  @Test
  void aPressureIsComparedWithTheOtherAsItWasPutRight() {
    Session session = walking(ines());
    Decision slip = session.record(at("2:20"), measured("systolic", Quantity.of(60, Unit.MMHG)));
    session.amend(
        at("2:25"), slip.event(), measured("systolic", Quantity.of(160, Unit.MMHG)), "a slip");
    session.recordTaken(at("2:30"), at("2:20"), measured("diastolic", Quantity.of(85, Unit.MMHG)));
    assertThatThrownBy(
            () -> session.amend(at("2:40"), slip.event(), pressureOf("systolic", 70), "again"))
        .isInstanceOf(ReadingRefused.class)
        .extracting("code")
        .isEqualTo(Code.G505);
  }

  private static Reading pressureOf(String which, double value) {
    return measured(which, Quantity.of(value, Unit.MMHG));
  }

  @Test
  void whatWasFollowedStandsAndTheEstimateUsesTheAmendedValue() {
    Session session = walking(ines(), 118, 120);
    Decision advance = session.decide(at("3:00"));
    session.follow(advance, advance.offers().get(0));
    double before = Capacity.of(session.outcome()).headline().orElseThrow().vo2max().amount();
    session.amend(at("3:30"), 4, heartRate(122), "the strap said otherwise");
    double after = Capacity.of(session.outcome()).headline().orElseThrow().vo2max().amount();
    assertThat(after).isLessThan(before);
    assertThat(session.phase()).isEqualTo(org.gradus.session.Phase.RECOVERY);
  }

  @Test
  void aRejectedReadingDoesNotCount() {
    Session session = walking(ines());
    session.record(at("2:00"), heartRate(108));
    Decision advance = session.record(at("3:00"), heartRate(110));
    assertThat(verdict(advance)).isEqualTo("ADVANCE next");
    Decision open =
        session.reject(at("3:05"), advance.event(), "heart_rate", "the strap had slipped");
    assertThat(open.verdict()).isInstanceOf(Verdict.Measure.class);
  }

  @Test
  void anAmendmentThatCannotBeIsRefusedAndChangesNothing() {
    Session session = walking(ines(), 108, 110);
    List<Event> before = session.events();
    refused(Code.G502, () -> session.amend(at("3:05"), 4, heartRate(700), "x"));
    refused(Code.G510, () -> session.amend(at("3:05"), 4, pressure(120, 80), "x"));
    refused(Code.G510, () -> session.amend(at("3:05"), 99, heartRate(100), "x"));
    refused(Code.G510, () -> session.reject(at("3:05"), 2, "heart_rate", "x"));
    refused(Code.G503, () -> session.amend(at("1:00"), 4, heartRate(100), "x"));
    assertThat(session.events()).isEqualTo(before);
    assertThat(verdict(session.decide(at("3:05")))).isEqualTo("ADVANCE next");
  }

  private static void refused(
      Code code, org.assertj.core.api.ThrowableAssert.ThrowingCallable call) {
    assertThatThrownBy(call)
        .isInstanceOfSatisfying(
            ReadingRefused.class, refused -> assertThat(refused.code()).isEqualTo(code));
  }

  @Test
  void aRestingReadingStaysOneWhenItIsPutRight() {
    Session session = Walks.ready(ines());
    Decision high = session.record(at("0:30"), resting(pressure(190, 80)));
    assertThat(verdict(high)).isEqualTo("DEFER high-systolic");
    Decision amended = session.amend(at("0:40"), high.event(), pressure(130, 80), "misheard");
    assertThat(amended.verdict()).isInstanceOf(Verdict.Ready.class);
  }

  @Test
  void onACopyOneMayTryWhatWouldBe() {
    Session session = walking(ines());
    session.record(at("2:00"), heartRate(108));
    Session copy = session.fork();
    assertThat(verdict(copy.record(at("3:00"), heartRate(130)))).isEqualTo("HOLD not-yet-steady");
    assertThat(verdict(session.record(at("3:00"), heartRate(110)))).isEqualTo("ADVANCE next");
    assertThat(copy.events()).hasSameSizeAs(session.events()).isNotEqualTo(session.events());
  }

  @Test
  void aSensorMaySendWhatCannotBe() {
    Session session = walking(ines());
    assertThat(session.admit(at("1:00"), heartRate(100))).isInstanceOf(Admission.Admitted.class);
    assertThat(session.admit(at("1:01"), heartRate(700)))
        .isInstanceOfSatisfying(
            Admission.Refused.class,
            refused -> assertThat(refused.why().code()).isEqualTo(Code.G502));
  }

  @Test
  void anEventThatCannotBeKeptHasNotHappened() {
    List<Event> kept = new ArrayList<>();
    Ledger small =
        (number, event, answer) -> {
          if (kept.size() == 2) {
            throw new JournalFailed(Code.G607, "a small ledger", "it is full");
          }
          kept.add(event);
        };
    Session session = Session.open(Walks.WALK, ines(), small);
    session.record(at("0:00"), resting(heartRate(66)));
    session.record(at("0:10"), resting(pressure(120, 70)));
    assertThatThrownBy(() -> session.record(at("0:20"), resting(heartRate(64))))
        .isInstanceOf(JournalFailed.class)
        .hasMessageContaining("it is full");
    assertThat(session.events()).isEqualTo(kept);
  }

  @Test
  void aTestIsTakenUpAgainFromItsEvents() {
    Session session = walking(ines(), 108, 110);
    session.amend(at("3:05"), 4, heartRate(111), "x");
    session.follow(session.decide(at("3:05")));
    Session again = Session.resume(Walks.WALK, ines(), session.events(), Ledger.NONE);
    assertThat(again.events()).isEqualTo(session.events());
    assertThat(again.decide(at("4:00"))).isEqualTo(session.decide(at("4:00")));
  }

  @Test
  void aThousandCorrectionsAreTakenAndNoMore() {
    Session session = Walks.ready(ines());
    int told = session.record(at("0:00"), resting(heartRate(70))).event();
    for (int i = 0; i < 1_000; i++) {
      session.amend(at("0:00"), told, heartRate(66 + i % 5), "read again");
    }
    assertRefused(Code.G510, () -> session.amend(at("0:00"), told, heartRate(71), "once more"));
    assertRefused(Code.G510, () -> session.reject(at("0:00"), told, "heart_rate", "a slip"));
    session.follow(session.decide(at("0:00")));
    assertThat(session.report(at("1:00"), "chest_pain").verdict()).isInstanceOf(Verdict.Stop.class);
    TestRecord record = TestRecord.parse("often", TestRecord.of(session, Optional.empty()).text());
    assertThat(record.verify(Bundled.library())).isEmpty();
  }
}
