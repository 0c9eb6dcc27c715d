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
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Clearance;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.history.TestRecord;
import org.gradus.knowledge.IntensityBands;
import org.gradus.library.Library;
import org.gradus.protocol.RuleBook;
import org.gradus.report.Report;
import org.gradus.session.Ending;
import org.gradus.session.Ledger;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.training.LoadPlan;
import org.gradus.training.Range;
import org.gradus.training.Training;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * After an alarming stop there is no training plan until it was told that the person is cleared for
 * exercise. Which stops are alarming is written in the file.
 */
class ClearedAfterStopTest {

  private static final IntensityBands BANDS = Bundled.library().bands("bands-2011");

  /** A test with an estimate, ended by chest pain in its second stage. */
  private static Session stopped() {
    return stopped("chest_pain");
  }

  private static Session stopped(String sign) {
    Session session = second();
    session.follow(session.report(at("4:00"), sign));
    return session;
  }

  /** A test with an estimate, in its second stage. */
  private static Session second() {
    Session session = Walks.walking(Walks.ines());
    session.record(at("2:00"), heartRate(112));
    session.follow(session.record(at("3:00"), heartRate(112)));
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

  @ParameterizedTest
  @ValueSource(strings = {"equipment_fault", "asks_to_stop"})
  void aFaultOrAWishThatEndedTheExerciseNeedsNoClearance(String sign) {
    Session session = stopped(sign);
    assertThat(session.outcome().stopped()).isTrue();
    assertThat(Capacity.of(session.outcome()).clearance()).isEqualTo(Clearance.NOT_NEEDED);
    assertThat(plan(session).band("moderate")).isPresent();
    session.record(at("9:00"), clearedAfterStop(false)); // whoever is told no gets no plan
    assertThat(plan(session).withheld()).isPresent();
  }

  @Test
  void aSymptomBesideAFaultNeedsClearance() {
    Session before = second();
    before.report(at("3:50"), "light_headed");
    before.follow(before.report(at("4:00"), "equipment_fault"));
    assertThat(plan(before).withheld()).isPresent();
    Session after = stopped("equipment_fault");
    after.follow(after.report(at("4:30"), "chest_pain"));
    assertThat(after.outcome().ending()).contains(Ending.EMERGENCY);
    assertThat(plan(after).withheld()).isPresent();
  }

  @Test
  void theTestersOwnStopNeedsClearanceOnlyWhereAnAlarmingOneApplies() {
    Verdict stop = new Verdict.Stop(true, "");
    Session sound = second();
    sound.override(at("4:00"), stop, "a phone call");
    assertThat(plan(sound).withheld()).isEmpty();
    for (Verdict against : List.of(stop, new Verdict.Finish())) {
      Session alarmed = second();
      alarmed.report(at("3:50"), "chest_pain");
      alarmed.override(at("4:00"), against, "my own way to end it");
      assertThat(plan(alarmed).withheld()).isPresent();
    }
  }

  @Test
  void aTestThatIsAbandonedWhileAnAlarmingStopAppliesNeedsClearance() {
    Session sound = second();
    sound.abandon(at("4:00"), "a fire alarm");
    assertThat(plan(sound).withheld()).isEmpty();
    Session alarmed = second();
    alarmed.report(at("3:50"), "chest_pain");
    alarmed.abandon(at("4:00"), "the ambulance is here");
    assertThat(plan(alarmed).withheld()).isPresent();
  }

  @Test
  void everyStopOfTheBundledFilesIsAlarmingButAFaultAndAWish() {
    Set<String> calm = new TreeSet<>();
    for (String id : Bundled.library().protocols()) {
      RuleBook rules = Bundled.library().protocol(id).rules();
      Stream.concat(rules.anyTime().stream(), rules.recovery().stream())
          .filter(rule -> rule.isStop() && !rule.alarming())
          .forEach(rule -> calm.add(rule.id()));
    }
    assertThat(calm).containsExactly("fault", "wish");
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
