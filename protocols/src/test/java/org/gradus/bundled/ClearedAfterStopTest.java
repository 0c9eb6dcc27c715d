package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.gradus.bundled.Sessions.assertRefused;
import static org.gradus.session.Readings.clearedAfterStop;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Times.at;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Clearance;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.history.TestRecord;
import org.gradus.knowledge.IntensityBands;
import org.gradus.library.Library;
import org.gradus.report.Report;
import org.gradus.session.Ledger;
import org.gradus.session.Session;
import org.gradus.training.LoadPlan;
import org.gradus.training.Range;
import org.gradus.training.Training;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/** After a stop nobody is told how to train before somebody has said that the person may. */
class ClearedAfterStopTest {

  private static final IntensityBands BANDS = Bundled.library().bands("bands-2011");

  /** A test with an estimate, ended by chest pain in its second stage. */
  private static Session stopped() {
    Session session = Walks.walking(Walks.ines());
    session.record(at("2:00"), heartRate(112));
    session.follow(session.record(at("3:00"), heartRate(112)));
    session.follow(session.report(at("4:00"), "chest_pain"));
    return session;
  }

  private static Training plan(Session session) {
    return Training.plan(Capacity.of(session.outcome()), BANDS);
  }

  private static String report(Session session) {
    return Report.of(session).bands(BANDS).text().replaceAll("\\s+", " ");
  }

  @Test
  void thereIsNoPlanUntilItIsToldAndTheReportSaysWhy() {
    Session session = stopped();
    assertThat(Capacity.of(session.outcome()).headline()).isPresent();
    assertThat(plan(session).plans()).isEmpty();
    assertThat(plan(session).withheld().orElseThrow())
        .startsWith("No training plan: the test was ended by a stop");
    assertThat(report(session))
        .contains("No training plan: the test was ended by a stop")
        .contains("cleared_after_stop")
        .doesNotContain("share of the reserve")
        .doesNotContain("Cycling on an ergometer");
    assertThat(Report.of(session).bands(BANDS).html()).doesNotContain("share of the reserve");
  }

  @Test
  void noLoadIsWorkedOutEither() {
    Range easy = new Range(Optional.of(uptake(15)), Optional.of(uptake(20)));
    LoadPlan load = Training.load(Capacity.of(stopped().outcome()), BANDS.exercises().get(3), easy);
    assertThat(load).isInstanceOf(LoadPlan.NotReachable.class);
    assertThat(load.words()).contains("ended by a stop");
  }

  private static Quantity uptake(double amount) {
    return Quantity.of(amount, Unit.ML_PER_KG_PER_MINUTE);
  }

  @Test
  void onceToldItIsRecordedAndThePlanIsMade() {
    Session session = stopped();
    session.record(at("9:00"), clearedAfterStop(true));
    assertThat(Capacity.of(session.outcome()).clearance()).isEqualTo(Clearance.GIVEN);
    assertThat(plan(session).band("moderate")).isPresent();
    assertThat(plan(session).remarks().get(0)).contains("ended by a stop").contains("cleared");
    assertThat(report(session)).contains("share of the reserve");
    TestRecord record = TestRecord.of(session, Optional.empty());
    assertThat(record.text()).contains("cleared_after_stop");
    Session again =
        TestRecord.parse("stopped", record.text()).resume(Bundled.library(), Ledger.NONE);
    assertThat(plan(again)).isEqualTo(plan(session));
  }

  @Test
  void theLastWordCountsAndItCanBeTakenBack() {
    Session session = stopped();
    int event = session.record(at("9:00"), clearedAfterStop(true)).event();
    Session refused = session.fork();
    refused.record(at("9:30"), clearedAfterStop(false));
    assertThat(plan(refused).withheld()).isPresent();
    session.reject(at("9:30"), event, "cleared_after_stop", "it was another person");
    assertThat(plan(session).withheld()).isPresent();
  }

  @Test
  void whatWasToldAfterTheTestIsToldToTheReport() {
    Session session = stopped();
    assertThat(Report.of(session).bands(BANDS).clearedAfterStop().text())
        .contains("moderate")
        .contains("cleared for exercise");
    assertThat(Capacity.of(session.outcome()).clearedAfterStop().clearance())
        .isEqualTo(Clearance.GIVEN);
  }

  @Test
  void withoutAStopItIsNeitherAskedNorTaken() {
    Session session = Walks.walking(Walks.ines());
    assertRefused(Code.G510, () -> session.record(at("1:00"), clearedAfterStop(true)));
    Capacity sound = Walked.ines();
    assertThat(sound.clearance()).isEqualTo(Clearance.NOT_NEEDED);
    assertThat(sound.clearedAfterStop()).isSameAs(sound);
    assertThat(Training.plan(sound, BANDS).withheld()).isEmpty();
  }

  @Test
  void noFileCanGiveTheNameAnotherMeaning() {
    List<SourceFile> files = new ArrayList<>();
    for (SourceFile file : Bundled.files()) {
      files.add(
          SourceFile.of(file.name(), file.text().replace("unwell_today", "cleared_after_stop")));
    }
    assertThatThrownBy(() -> Library.of(files))
        .isInstanceOf(FileRefused.class)
        .hasMessageContaining("cleared_after_stop is not a free name");
  }
}
