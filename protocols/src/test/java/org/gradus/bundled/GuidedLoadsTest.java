package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.gradus.session.Times.at;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.gradus.capacity.Capacity;
import org.gradus.diagnostic.VerdictRefused;
import org.gradus.history.TestRecord;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.report.Report;
import org.gradus.session.Decision;
import org.gradus.session.Loading;
import org.gradus.session.Readings;
import org.gradus.session.Session;
import org.gradus.session.StageResult;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/** Loads that a reading guides, on an invented walk whose grade follows the heart rate. */
class GuidedLoadsTest {

  private static final Protocol WALK = Laboratory.library().protocol("guided-treadmill");

  private static Session walking() {
    Session session = Session.open(WALK, Person.builder().age(40).lowersHeartRate(false).build());
    session.follow(session.decide(at("0:00")));
    assertThat(through(session, "2:00", 90)).isEqualTo("ADVANCE to walk at 5 km/h, 1 %");
    return session;
  }

  private static String through(Session session, String end, double bpm) {
    session.record(at(end).minusSeconds(10), Readings.heartRate(bpm));
    Decision decision = session.decide(at(end));
    session.follow(decision);
    return decision.verdict().toString();
  }

  @Test
  void theLoadFollowsTheReadingUpAndDown() {
    Session session = walking();
    assertThat(through(session, "3:00", 110)).isEqualTo("CHANGE to 5 km/h, 2 % in walk");
    assertThat(Loading.line(session.outcome().load(at("3:01")))).isEqualTo("5 km/h, 2 %");
    // For its length again, and with a reading of its own.
    assertThat(session.decide(at("3:30")).verdict()).isEqualTo(new Verdict.Continue(at("4:00")));
    assertThat(session.decide(at("4:00")).verdict()).isInstanceOf(Verdict.Measure.class);
    assertThat(through(session, "4:20", 136)).isEqualTo("CHANGE to 5 km/h, 1 % in walk");
    assertThat(through(session, "5:20", 125)).isEqualTo("ADVANCE to on_target at 5 km/h, 1 %");
    assertThat(through(session, "8:20", 128)).startsWith("FINISH");
    assertThat(session.outcome().stages())
        .extracting(StageResult::id, stage -> Loading.line(stage.loads()))
        .extracting(Object::toString)
        .containsExactly(
            "(\"level\", \"5 km/h, 0 %\")",
            "(\"walk\", \"5 km/h, 1 %\")",
            "(\"walk\", \"5 km/h, 2 %\")",
            "(\"walk\", \"5 km/h, 1 %\")",
            "(\"on_target\", \"5 km/h, 1 %\")");
    assertThat(Capacity.of(session.outcome()).result("grade_at_target").orElseThrow().words())
        .isEqualTo("1 %");
    assertThat(Report.of(session).text()).contains("CHANGE to 5 km/h, 2 % in walk");
    TestRecord record = TestRecord.of(session, Optional.empty());
    assertThat(TestRecord.parse("guided", record.text()).verify(Laboratory.library())).isEmpty();
  }

  @Test
  void aChangeThatIsUsedUpOrLeadsTooFarIsPassedOver() {
    Session session = walking();
    for (String end : List.of("3:00", "4:00", "5:00")) {
      assertThat(through(session, end, 100)).startsWith("CHANGE");
    }
    // 4 % is the most that is possible.
    assertThat(through(session, "6:00", 100)).isEqualTo("ADVANCE to on_target at 5 km/h, 4 %");
    session = walking();
    assertThat(through(session, "3:00", 140)).isEqualTo("CHANGE to 5 km/h, 0 % in walk");
    // Below 0 % there is nothing.
    assertThat(through(session, "4:00", 140)).isEqualTo("ADVANCE to on_target at 5 km/h, 0 %");
  }

  @Test
  void aChangeStartsFromWhatIsReallySet() {
    Session session = walking();
    session.loadSet(
        at("2:20"), new Loading("grade", Quantity.of(2.5, Unit.PERCENT), Optional.empty()));
    assertThat(through(session, "3:00", 110)).isEqualTo("CHANGE to 5 km/h, 3.5 % in walk");
  }

  @Test
  void theNumberOfChangesBoundsTheLongestTest() {
    // 2 min, six times 1 min, six times 3 min, for the last stage has the common rules, too; and 90
    // s of waiting at each of 13 ends.
    assertThat(WALK.longest()).isEqualTo(Duration.ofMinutes(2 + 6 + 18).plusSeconds(13 * 90));
  }

  @Test
  void aChangeIsFollowedAndNotMadeUp() {
    Session session = walking();
    assertThatThrownBy(
            () ->
                session.override(
                    at("2:30"),
                    new Verdict.Change("walk", session.outcome().load(at("2:30"))),
                    "too easy"))
        .isInstanceOf(VerdictRefused.class)
        .hasMessageContaining("G602");
  }

  @Test
  void whatCannotBeIsRefused() {
    List<String> changes =
        List.of(
            ", grade: 1 % } -> } -> G413",
            "grade: 1 % } -> grade: { from: 1 %, step: 1 %, every: 10 s, to: 3 % } } -> ramp",
            "  grade: { range: 0 % to 4 %, source: practice }\n -> NOTHING -> no range bounds it",
            "at most 5 times -> at most 101 times -> allow 100 at most",
            "change grade -> change gradient -> there is no load called gradient",
            "change grade by grade_step -> change speed by grade_step -> G214",
            "  - { id: settled, rule: advance }\n -> NOTHING -> G401",
            "{ id: warm, rule: advance } -> { id: warm, rule: offer change grade by 1 % at most 2"
                + " times } -> G101");
    for (String change : changes) {
      List<String> parts = List.of(change.split(" -> ", -1));
      String by = parts.get(1).replace("NOTHING", "");
      assertThatThrownBy(() -> Laboratory.library(parts.get(0), by), change)
          .hasMessageContaining(parts.get(2));
    }
  }
}
