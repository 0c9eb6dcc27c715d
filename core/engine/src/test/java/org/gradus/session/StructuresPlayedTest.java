package org.gradus.session;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.gradus.session.Readings.answer;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Times.at;
import static org.gradus.unit.Quantities.kg;

import java.util.List;
import java.util.Optional;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.GradusException;
import org.gradus.history.TestRecord;
import org.gradus.library.Structures;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/** How stages of every structure go. People and protocols are invented; figures worked by hand. */
class StructuresPlayedTest {

  private static Session open(String protocol, int age, Person.Sex sex) {
    return open(Structures.of(protocol), age, sex);
  }

  private static Session open(Protocol protocol, int age, Person.Sex sex) {
    return Session.open(
        protocol,
        Person.builder()
            .age(age)
            .sex(sex)
            .mass(kg(70))
            .cleared(true)
            .lowersHeartRate(false)
            .build());
  }

  private static Session begun(Session session) {
    session.follow(session.decide(at("0:00")));
    return session;
  }

  private static Verdict then(Session session, String time) {
    Decision decision = session.decide(at(time));
    session.follow(decision);
    return decision.verdict();
  }

  private static Quantity uptake(double amount) {
    return Quantity.of(amount, Unit.ML_PER_KG_PER_MINUTE);
  }

  private static Agenda agenda(Session session, String time) {
    return session.decide(at(time)).agenda();
  }

  private static void assertRefused(Code code, ThrowingCallable call) {
    assertThat(org.assertj.core.api.Assertions.catchThrowableOfType(GradusException.class, call))
        .extracting(GradusException::code)
        .isEqualTo(code);
  }

  // 75 m/min and 29 mL/kg/min: (29 - 3.5 - 7.5) / (1.8 x 75) = 13.33 %; a thirtieth of it is
  // 0.444 %, set every 20 s.
  private static Session onTheRamp() {
    Session session = open("ramp", 40, Person.Sex.MALE);
    session.record(
        at("0:00"),
        answer("expected", uptake(29)),
        answer("walking_speed", Quantity.of(75, Unit.METRE_PER_MINUTE)),
        answer("supervised", true));
    begun(session);
    then(session, "1:00");
    return session;
  }

  @Test
  void aRampChangesStepByStep() {
    Session session = onTheRamp();
    assertThat(Loading.line(session.outcome().load(at("1:00")))).isEqualTo("2.8 mph, 0 %");
    double step = 100 * 18.0 / 135 / 30;
    Agenda agenda = agenda(session, "1:20");
    assertThat(agenda.load().get(1).value().amount()).isEqualTo(step, within(1e-9));
    assertThat(agenda.next().orElseThrow().at()).isEqualTo(at("1:40"));
    assertThat(agenda.next().orElseThrow().load().get(1).value().amount())
        .isEqualTo(2 * step, within(1e-9));
    assertThat(session.outcome().load(at("11:00")).get(1).value().amount())
        .isEqualTo(30 * step, within(1e-9));
  }

  @Test
  void theUptakeAtTheEndIsThatOfTheLoadUpToTheLastSecond() {
    Session session = onTheRamp();
    session.report(at("9:00"), "exhausted");
    assertThat(then(session, "9:00")).isInstanceOf(Verdict.Finish.class);
    // 8 minutes on the ramp: the 24th step is only taken then, so that 23 were walked.
    double cost = 3.5 + 7.5 + 1.8 * 75 * (23 * 18.0 / 135 / 30);
    assertThat(Capacity.of(session.outcome()).headline().orElseThrow().vo2max().amount())
        .isEqualTo(0.72 * cost + 3.67, within(1e-9));
  }

  @Test
  void aLoadThatIsReallySetEndsTheRamp() {
    Session session = onTheRamp();
    session.loadSet(at("5:10"), new Loading("grade", Quantity.of(6, Unit.PERCENT)));
    assertThat(Loading.line(session.outcome().load(at("9:00")))).isEqualTo("2.8 mph, 6 %");
    assertThat(agenda(session, "5:20").next()).isEmpty();
  }

  @Test
  void aTestDoesNotBeginBeforeWhatItsLoadsRestOnIsAnswered() {
    Session session = open("ramp", 40, Person.Sex.MALE);
    session.record(at("0:00"), answer("supervised", true));
    Decision decision = session.decide(at("0:00"));
    Verdict.Measure asked = (Verdict.Measure) decision.verdict();
    assertThat(asked.gaps())
        .extracting(gap -> gap.subject())
        .containsExactly("expected", "walking_speed");
    assertThat(decision.agenda().asks())
        .filteredOn(ask -> ask.name().equals("walking_speed"))
        .singleElement()
        .satisfies(
            ask -> {
              assertThat(ask.prompt()).isEqualTo("Brisk speed");
              assertThat(ask.needed()).isTrue();
              assertThat(ask.type()).isEqualTo(new Type.Measure(Kind.SPEED));
            });
  }

  @Test
  void aMileLastsUntilItIsWalked() {
    Session session = begun(open("mile", 40, Person.Sex.MALE));
    assertThat(session.decide(at("24:59")).verdict()).isInstanceOf(Verdict.Continue.class);
    Decision done = session.done(at("15:10"), at("15:00"));
    assertThat(done.verdict()).isInstanceOf(Verdict.Finish.class);
    session.follow(done);
    session.recordTaken(at("15:20"), at("15:04"), heartRate(140));
    // 100 - 2 x 15 - 0.1 x 140.
    assertThat(Capacity.of(session.outcome()).headline().orElseThrow().vo2max().amount())
        .isEqualTo(56, within(1e-9));
    assertThat(session.outcome().stages().get(0).lasted()).isEqualTo(at("15:00"));
    assertThat(TestRecord.of(session, Optional.empty()).text()).contains("\"reached\": \"PT15M\"");
  }

  @Test
  void aMileThatIsNotWalkedInTimeEndsWithoutAnEstimate() {
    Session session = begun(open("mile", 40, Person.Sex.MALE));
    assertThat(then(session, "25:00")).isInstanceOf(Verdict.Finish.class);
    assertThat(Capacity.of(session.outcome()).headline()).isEmpty();
    assertThat(session.outcome().stages().get(0).completed()).isFalse();
  }

  @Test
  void whatCannotBeDoneIsRefused() {
    Session session = begun(open("mile", 40, Person.Sex.MALE));
    assertRefused(Code.G504, () -> session.done(at("10:00"), at("10:01")));
    session.done(at("10:00"));
    assertRefused(Code.G510, () -> session.done(at("10:10")));
    // Told by mistake it is taken back, and told again when it is so.
    session.reject(at("10:20"), session.events().size(), Event.Done.SUBJECT, "another walker");
    assertThat(session.done(at("14:00")).verdict()).isInstanceOf(Verdict.Finish.class);
    assertRefused(Code.G510, () -> begun(open("steps", 20, Person.Sex.MALE)).done(at("1:00")));
  }

  @Test
  void anEstimateFromRecoveryReadsItsOwnPulse() {
    Session session = begun(open("steps", 20, Person.Sex.FEMALE));
    assertThat(Loading.line(session.outcome().load())).isEqualTo("16.25 inch, 22 cycles/min");
    assertThat(Capacity.of(session.outcome()).estimates().get(0))
        .isInstanceOf(Estimate.Unavailable.class);
    then(session, "3:00");
    assertThat(agenda(session, "3:10").posture()).contains("standing");
    session.record(at("3:20"), heartRate(150));
    // 65.81 - 0.1847 x 150.
    assertThat(Capacity.of(session.outcome()).headline().orElseThrow().vo2max().amount())
        .isEqualTo(38.105, within(1e-9));
  }

  @Test
  void aSeriesMakesDistinctStages() {
    Session session = open("shuttle", 16, Person.Sex.MALE);
    assertThat(session.decide(at("0:00")).verdict().word()).isEqualTo("MEASURE");
    session.record(at("0:00"), answer("guardian_agrees", true));
    begun(session);
    assertThat(then(session, "1:00")).hasToString("ADVANCE to level_2 at 9 km/h");
    assertThat(then(session, "2:00")).hasToString("ADVANCE to level_3 at 9.5 km/h");
    session.report(at("2:30"), "missed_twice");
    then(session, "2:30");
    // The speed of the last level finished, 9 km/h, at 16 years:
    // 31.025 + 29.142 - 51.968 + 0.1536 x 16 x 9.
    assertThat(Capacity.of(session.outcome()).headline().orElseThrow().vo2max().amount())
        .isEqualTo(30.3174, within(1e-9));
    Decision end = session.decide(at("12:30"));
    assertThat(end.verdict().word()).isEqualTo("NOT RECOVERED");
  }

  @Test
  void theBrakeForceIsShownAndWhoPedalsFasterDoesMore() {
    Session session = begun(open("branching", 40, Person.Sex.MALE));
    // 150 kgm/min at 50 turns of 6 m each: 0.5 kp.
    assertThat(Loading.line(session.outcome().load())).isEqualTo("150 kgm/min, 50 rpm, 0.5 kp");
    session.loadSet(at("0:30"), new Loading("pedal_rate", Quantity.of(60, Unit.RPM)));
    assertThat(Loading.line(session.outcome().load())).isEqualTo("180 kgm/min, 60 rpm, 0.5 kp");
    session.loadSet(at("0:40"), new Loading("brake_force", Quantity.of(1, Unit.KILOPOND)));
    assertThat(Loading.line(session.outcome().load())).isEqualTo("360 kgm/min, 60 rpm, 1 kp");
    session.loadSet(at("0:50"), new Loading("power", Quantity.of(180, Unit.KGM_PER_MINUTE)));
    assertThat(Loading.line(session.outcome().load())).isEqualTo("180 kgm/min, 60 rpm, 0.5 kp");
  }

  @Test
  void theSecondLoadFollowsFromTheFirstStage() {
    for (List<Object> one :
        List.of(
            List.<Object>of(78, "load_750"),
            List.<Object>of(84, "load_600"),
            List.<Object>of(90, "load_450"),
            List.<Object>of(101, "load_300"))) {
      Session session = begun(open("branching", 40, Person.Sex.MALE));
      session.record(at("2:00"), heartRate((int) one.get(0)));
      session.record(at("3:00"), heartRate((int) one.get(0)));
      assertThat(((Verdict.Advance) then(session, "3:00")).stage()).isEqualTo(one.get(1));
    }
  }

  @Test
  void aLoadMayBeChosenAmongWhatIsOfferedToThePerson() {
    Session session = open("single-load", 30, Person.Sex.MALE);
    assertThat(session.decide(at("0:00")).verdict().word()).isEqualTo("MEASURE");
    Decision ready = session.record(at("0:00"), answer("conditioned", true));
    assertThat(ready.verdict()).hasToString("READY: begin first_load at 600 kgm/min, 50 rpm");
    Quantity unheard = Quantity.of(500, Unit.KGM_PER_MINUTE);
    assertRefused(Code.G508, () -> session.record(at("0:05"), answer("start_load", unheard)));
    Decision other =
        session.record(at("0:10"), answer("start_load", Quantity.of(300, Unit.KGM_PER_MINUTE)));
    assertThat(other.verdict()).isInstanceOf(Verdict.Measure.class);
    assertThat(((Verdict.Measure) other.verdict()).gaps().get(0).inWords())
        .isEqualTo("start load: not among what is offered to this person");
  }

  @Test
  void theLoadOfTheStageBeforeIsTheOneReallySet() {
    Session session = open("single-stage", 40, Person.Sex.FEMALE);
    session.record(at("0:00"), answer("walking_speed", Quantity.of(3, Unit.MPH)));
    begun(session);
    session.record(at("3:00"), heartRate(80));
    session.record(at("4:00"), heartRate(80));
    assertThat(then(session, "4:00")).hasToString("HOLD until 6:00");
    session.loadSet(at("4:05"), new Loading("speed", Quantity.of(3.5, Unit.MPH)));
    session.record(at("5:00"), heartRate(99));
    session.record(at("6:00"), heartRate(100));
    Verdict graded = then(session, "6:00");
    assertThat(graded).hasToString("ADVANCE to graded at 3.5 mph, 5 %");
  }

  @Test
  void nobodyHasRecoveredByARateOfLongAgo() {
    Session session = begun(open("mile", 40, Person.Sex.MALE));
    session.follow(session.done(at("15:00")));
    session.record(at("16:00"), heartRate(95));
    // The next rate is due at 17:00, and 15 s later it is overdue.
    assertThat(session.decide(at("18:00")).verdict().word()).isEqualTo("CONTINUE");
    assertThat(session.record(at("18:00"), heartRate(95)).verdict().word()).isEqualTo("END");
    assertThat(session.decide(at("19:15")).verdict().word()).isEqualTo("END");
    assertThat(session.decide(at("19:16")).verdict().word()).isEqualTo("CONTINUE");
    assertThat(session.decide(at("25:00")).verdict().toString())
        .isEqualTo(
            "NOT RECOVERED, keep watching, get advice: calm: recovery.time [10:00] >= 3 min and"
                + " heart_rate [unknown] < 100 bpm");
  }

  @Test
  void whatIsToldLateSaysWhatWouldHaveBeenOtherwise() {
    Session session = open("branching", 40, Person.Sex.MALE);
    begun(session);
    session.record(at("2:00"), heartRate(78));
    session.record(at("3:00"), heartRate(78));
    then(session, "3:00");
    Decision answer = session.amend(at("3:20"), 3, heartRate(88), "a digit was misread");
    assertThat(answer.hindsight())
        .containsExactly(
            new Hindsight(
                4,
                "ADVANCE to load_750 at 750 kgm/min, 50 rpm, 2.5 kp (below-80)",
                "HOLD until 4:00 (first-not-steady)"));
    assertThat(session.decide(at("3:20")).hindsight()).isEmpty();
    TestRecord record = TestRecord.of(session, Optional.empty());
    assertThat(record.text()).contains("\"hindsight\": [{\"event\": 4");
    assertThat(TestRecord.parse("walk", record.text())).isEqualTo(record);
    assertThat(record.verify(Structures.library())).isEmpty();
  }

  @Test
  void reasonsAreGivenAndOnlyWhatWasReportedIsWithdrawn() {
    Session session = begun(open("mile", 40, Person.Sex.MALE));
    assertRefused(Code.G510, () -> session.withdraw(at("1:00"), "jogged", "she walks"));
    session.report(at("1:00"), "jogged");
    assertRefused(Code.G510, () -> session.withdraw(at("1:10"), "jogged", " "));
    assertRefused(Code.G510, () -> session.reject(at("1:10"), 2, "jogged", ""));
    session.reject(at("1:10"), 2, "jogged", "it was somebody else");
    // As if never told: there is nothing to withdraw.
    assertRefused(Code.G510, () -> session.withdraw(at("1:20"), "jogged", "she walks"));
    assertThat(session.events()).hasSize(3);
  }

  @Test
  void finishSaysWhichLoadToSetThen() {
    Session session = open("survey", 40, Person.Sex.FEMALE);
    session.record(at("0:00"), answer("expected", uptake(18)));
    begun(session);
    session.record(at("1:55"), heartRate(130));
    Verdict.Finish finish = (Verdict.Finish) then(session, "2:00");
    assertThat(Loading.line(finish.then())).isEqualTo("2 mph, 0 %");
    assertThat(session.outcome().load()).isEqualTo(finish.then());
    assertThat(agenda(session, "2:10").next().orElseThrow())
        .isEqualTo(new Agenda.Change(at("3:00"), finish.then()));
  }
}
