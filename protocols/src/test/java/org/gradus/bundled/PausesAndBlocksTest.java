package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.gradus.session.Times.at;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.gradus.capacity.Capacity;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Stage;
import org.gradus.report.Report;
import org.gradus.review.Check;
import org.gradus.review.Review;
import org.gradus.review.ReviewFinding;
import org.gradus.session.Agenda;
import org.gradus.session.Decision;
import org.gradus.session.Loading;
import org.gradus.session.Readings;
import org.gradus.session.Session;
import org.gradus.session.StageResult;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/**
 * Pauses, blocks, and readings of some stages only, on an invented test of hard and easy minutes.
 */
class PausesAndBlocksTest {

  private static final Protocol WORK = Laboratory.library().protocol("work-and-rest");

  private static final String HARD = "id: hard, lasts: 1 min, power: ";

  private static Session begun() {
    return begun(WORK);
  }

  private static Session begun(Protocol protocol) {
    Session session =
        Session.open(protocol, Person.builder().age(30).lowersHeartRate(false).build());
    session.follow(session.decide(at("0:00")));
    return session;
  }

  private static void pulse(Session session, Duration time, double bpm) {
    session.record(time, Readings.heartRate(bpm));
  }

  private static void lactate(Session session, Duration time, double amount) {
    session.record(time, Readings.measured("lactate", Quantity.of(amount, Unit.MMOL_PER_L)));
  }

  private static String follow(Session session, Duration time) {
    Decision decision = session.decide(time);
    session.follow(decision);
    return decision.verdict().toString();
  }

  /** Takes what is due and follows, to the end of a stage. */
  private static String through(Session session, Duration end, double bpm) {
    pulse(session, end.minusSeconds(10), bpm);
    return follow(session, end);
  }

  private static List<String> due(Session session, Duration time) {
    List<String> due = new ArrayList<>();
    for (Agenda.Item item : session.decide(time).agenda().items()) {
      due.addAll(item.names());
    }
    return due.stream().distinct().sorted().toList();
  }

  @Test
  void aBlockIsItsStagesSeveralTimesOver() {
    assertThat(WORK.stages())
        .extracting(Stage::id)
        .containsExactly(
            "warm_up",
            "hard_1",
            "easy_1",
            "pause_1",
            "hard_2",
            "easy_2",
            "pause_2",
            "hard_3",
            "easy_3",
            "pause_3",
            "last",
            "end_pause");
    assertThat(WORK.stages()).filteredOn(Stage::pause).hasSize(4);
    // 2 min, three rounds of 2:40, 1 min and 1 min, three holds of 30 s, and 90 s of waiting at the
    // end of each stage.
    assertThat(WORK.longest()).isEqualTo(at("13:30").plusSeconds(12 * 90L));
  }

  @Test
  void inAPauseNoLoadIsSetAndOnlyWhatBelongsThereIsRead() {
    Session session = begun();
    assertThat(due(session, at("0:30"))).containsExactly("heart_rate");
    assertThat(through(session, at("2:00"), 100)).isEqualTo("ADVANCE to hard_1 at 200 W");
    assertThat(through(session, at("3:00"), 130)).isEqualTo("ADVANCE to easy_1 at 60 W");
    through(session, at("4:00"), 120);
    assertThat(session.outcome().load(at("4:05"))).isEmpty();
    Decision pause = session.decide(at("4:05"));
    assertThat(pause.verdict()).isInstanceOf(Verdict.Continue.class);
    assertThat(pause.agenda().posture()).contains("seated");
    assertThat(due(session, at("4:05"))).containsExactly("lactate");
    // No rule needs the sample, so the test goes on; told late, it belongs to the pause it is of.
    assertThat(follow(session, at("4:40"))).isEqualTo("ADVANCE to hard_2 at 200 W");
    session.recordTaken(
        at("4:55"), at("4:22"), Readings.measured("lactate", Quantity.of(3.1, Unit.MMOL_PER_L)));
    pulse(session, at("5:30"), 175);
    follow(session, at("5:40"));
    assertThat(Capacity.of(session.outcome()).result("lactate_after_one").orElseThrow().words())
        .isEqualTo("3.1 mmol/L");
  }

  @Test
  void aReadingOfSomeStagesIsDueInThemAlone() {
    Session session = begun();
    through(session, at("2:00"), 100);
    assertThat(due(session, at("2:10"))).containsExactly("heart_rate");
    through(session, at("3:00"), 130);
    through(session, at("4:00"), 120);
    lactate(session, at("4:20"), 2.0);
    follow(session, at("4:40"));
    // hard_2 is the third stage that counts.
    assertThat(due(session, at("4:50"))).containsExactly("effort", "heart_rate");
  }

  @Test
  void aPauseCountsForNothingThatDoesNotNameIt() {
    Session session = begun();
    through(session, at("2:00"), 100);
    through(session, at("3:00"), 130);
    through(session, at("4:00"), 120);
    lactate(session, at("4:20"), 2.4);
    follow(session, at("4:40"));
    pulse(session, at("5:30"), 175);
    assertThat(follow(session, at("5:40"))).startsWith("FINISH");
    Capacity capacity = Capacity.of(session.outcome());
    assertThat(capacity.result("lactate_after_one").orElseThrow().words()).isEqualTo("2.4 mmol/L");
    // hard_1, easy_1, hard_2.
    assertThat(capacity.result("hard_minutes").orElseThrow().words()).isEqualTo("3");
    assertThat(session.outcome().stages())
        .filteredOn(stage -> !stage.isCounted())
        .extracting(StageResult::id)
        .containsExactly("warm_up", "pause_1");
    assertThat(Report.of(session).text()).contains("pause_1 (pause)");
  }

  @Test
  void whatIsReadInAPauseBelongsToTheStageBeforeToo() {
    Session session = begun();
    through(session, at("2:00"), 100);
    through(session, at("3:00"), 130);
    through(session, at("4:00"), 120);
    assertThat(Capacity.of(session.outcome()).result("lactate_of_easy").orElseThrow().words())
        .isEqualTo("needs last measured stage; found 0");
    lactate(session, at("4:20"), 2.4);
    follow(session, at("4:40"));
    through(session, at("5:40"), 150);
    Capacity capacity = Capacity.of(session.outcome());
    // Of easy_1, and not of hard_2, in which none was taken.
    assertThat(capacity.result("lactate_of_easy").orElseThrow().words()).isEqualTo("2.4 mmol/L");
  }

  @Test
  void theStageBeforeAPauseIsTheStageBeforeTheNextOne() {
    Protocol next =
        Laboratory.library(
                HARD + "200 W",
                HARD
                    + "\"if known(previous_stage.lactate) then lesser(previous_stage.power, 300 W) + 5"
                    + " W else 200 W\"")
            .protocol("work-and-rest");
    Session session = begun(next);
    through(session, at("2:00"), 100);
    through(session, at("3:00"), 130);
    through(session, at("4:00"), 120);
    lactate(session, at("4:20"), 3.4);
    // 60 W and 5 W: a pause has no load, and is passed over.
    assertThat(follow(session, at("4:40"))).isEqualTo("ADVANCE to hard_2 at 65 W");
  }

  @Test
  void aBlockNumbersItsRounds() {
    Protocol rounds =
        Laboratory.library(HARD + "200 W", HARD + "200 W + 10 W * (round.number - 1)")
            .protocol("work-and-rest");
    Session session = begun(rounds);
    assertThat(through(session, at("2:00"), 100)).isEqualTo("ADVANCE to hard_1 at 200 W");
    through(session, at("3:00"), 130);
    through(session, at("4:00"), 120);
    lactate(session, at("4:20"), 2.4);
    assertThat(follow(session, at("4:40"))).isEqualTo("ADVANCE to hard_2 at 210 W");
    assertThatThrownBy(() -> Laboratory.library(HARD + "200 W", HARD + "200 W * round.number"))
        .hasMessageContaining("G412")
        .hasMessageContaining("600 W");
  }

  @Test
  void stopsAndFinishesOfABlockAreOneRuleInEveryRound() {
    Session session = begun();
    through(session, at("2:00"), 100);
    pulse(session, at("2:50"), 171);
    Decision decision = session.decide(at("3:00"));
    assertThat(decision.verdict()).isInstanceOf(Verdict.Finish.class);
    assertThat(decision.because().orElseThrow().rule()).isEqualTo("too-hard");
    // The easy stage has rules of its own.
    session = begun();
    through(session, at("2:00"), 100);
    through(session, at("3:00"), 130);
    assertThat(through(session, at("4:00"), 171)).startsWith("ADVANCE to pause_1");
    assertThat(Loading.line(session.outcome().load())).isEqualTo("no load");
  }

  @Test
  void aLoadThatIsMeantToFallIsNoFinding() {
    assertThat(falling(Laboratory.library())).isEmpty();
    // Without the word, easy after hard is a slip in each round, and last after the pause is none.
    assertThat(falling(Laboratory.library(", falls: expected", "")))
        .containsExactly("easy_1", "easy_2", "easy_3");
    // After a pause as well: 200 W comes before it.
    assertThat(
            falling(
                Laboratory.library(
                    "id: easy, lasts: 1 min, power: 60 W", "id: easy, lasts: 1 min, power: 250 W")))
        .containsExactly("hard_2", "hard_3", "last");
  }

  private static List<String> falling(Library library) {
    return Review.of(library.protocol("work-and-rest")).findings().stream()
        .filter(finding -> finding.check() == Check.UPTAKE_NOT_RISING)
        .map(ReviewFinding::about)
        .toList();
  }

  @Test
  void whatCannotBeIsRefused() {
    List<String> changes =
        List.of(
            "in: [pauses] -> in: [pawses] -> did you mean pauses?",
            "in: stages 3 to 4 -> in: stages 30 to 40 -> there is no stage called",
            "rest: 40 s -> rest: 40 W -> 40 W is not a time",
            "rest: 40 s, -> rest: 40 s, power: 50 W, -> power is not a key of a stage",
            "times: 3 -> times: 30 -> stages",
            "in: [pauses] -> in: [rount] -> did you mean round?",
            "id: round\n -> id: stage\n -> stage.number",
            "finish when tired -> finish when rounds.number > 2 -> did you mean round.number?",
            "- { id: next, -> - { id: late, rule: finish when round.number > 2 }\n  - { id: next, -> G405",
            "finish when tired -> finish when lactate > 4 mmol/L -> lactate is not measured in hard_1",
            "finish when tired -> advance to hard_1 -> G404");
    for (String change : changes) {
      List<String> parts = List.of(change.split(" -> ", -1));
      assertThatThrownBy(() -> Laboratory.library(parts.get(0), parts.get(1)), change)
          .hasMessageContaining(parts.get(2));
    }
  }
}
