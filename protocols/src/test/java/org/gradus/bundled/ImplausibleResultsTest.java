package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.measured;
import static org.gradus.session.Times.at;
import static org.gradus.unit.Quantities.bpm;

import java.util.List;
import java.util.Optional;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.capacity.Finding;
import org.gradus.capacity.Headline;
import org.gradus.capacity.Interval;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.protocol.Person.Sex;
import org.gradus.protocol.Protocol;
import org.gradus.report.Report;
import org.gradus.session.Outcome;
import org.gradus.session.Reading;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/**
 * Answers that no person has are never the result of a test, and lines that do not rise are none.
 */
class ImplausibleResultsTest {

  private static final String WALK = "graded-walk-standard";
  private static final String SPAN = "    least_span: line_span\n";
  // A line through any two stages, however near each other.
  private static final Protocol ANY_LINE = edited(SPAN, "");
  private static final Person WOMAN = Walked.person(46, Sex.FEMALE, 71).build();

  private static Protocol edited(String... pairs) {
    return edited(WALK, List.of(pairs)).protocol(WALK);
  }

  private static Library edited(String name, List<String> pairs) {
    return Library.of(
        Bundled.files().stream()
            .map(file -> file.name().endsWith(name + ".yaml") ? edited(file, pairs) : file)
            .toList());
  }

  private static SourceFile edited(SourceFile file, List<String> pairs) {
    String text = file.text();
    for (int i = 0; i < pairs.size(); i += 2) {
      assertThat(text).contains(pairs.get(i));
      text = text.replace(pairs.get(i), pairs.get(i + 1));
    }
    return SourceFile.of(file.name(), text);
  }

  private static Capacity walked(Protocol protocol, double... rates) {
    return Capacity.of(Walked.walk(protocol, WOMAN, rates).outcome());
  }

  private static List<String> reasons(Capacity capacity, String estimate) {
    return capacity.estimate(estimate).orElseThrow().reasons();
  }

  // 16.27 mL/kg/min at 112 bpm, taken as 106 bpm above rest: 16.27 x (174 - 106) / (112 - 106) =
  // 184.4 mL/kg/min.
  @Test
  void anAnswerNoPersonHasIsNoHeadlineButAFinding() {
    Protocol wrong =
        edited(
            "from: usable stages, at least 1",
            "from: usable stages, at least 9",
            "then 72 bpm else 61 bpm",
            "then 106 bpm else 106 bpm");
    Session session = Walked.walk(wrong, WOMAN, 112);
    Capacity capacity = Capacity.of(session.outcome());
    assertThat(capacity.headline()).isEmpty();
    assertThat(Headline.of(session.outcome())).isEmpty();
    Estimate estimate = capacity.estimate("single_stage").orElseThrow();
    assertThat(estimate).isInstanceOf(Estimate.Implausible.class);
    assertThat(estimate.reasons())
        .containsExactly(
            "implausible: 184.4 mL/kg/min; check mass, heart rates, loads and their units");
    assertThat(capacity.findings())
        .extracting(Finding::toString)
        .first()
        .asString()
        .startsWith("aerobic capacity: implausible: 184.4 mL/kg/min; check mass, heart rates");
    String report =
        Report.of(session).bands(Bundled.library().bands("bands-2011")).text().replace("\n", " ");
    assertThat(report)
        .contains("No aerobic capacity could be estimated from this test.")
        .contains("implausible: 184.4 mL/kg/min")
        .contains("No uptakes and loads: no capacity could be estimated");
  }

  // The first estimate is wrong because something it was made from is; the second one rests on the
  // same test and is no way out.
  @Test
  void anotherEstimateOfTheSameTestIsNoWayOut() {
    Protocol wrong =
        edited(
            "      extrapolate_through(uptake, heart_rate",
            "      4 * extrapolate_through(uptake, heart_rate");
    Capacity capacity = walked(wrong, 116, 136);
    assertThat(capacity.estimate("through_rest").orElseThrow())
        .isInstanceOf(Estimate.Implausible.class);
    assertThat(capacity.estimate("stages_line").orElseThrow())
        .isInstanceOf(Estimate.Available.class);
    assertThat(capacity.headline()).isEmpty();
  }

  @Test
  void anAnswerBelowZeroIsImplausibleToo() {
    Protocol wrong =
        edited(
            "vo2max: extrapolate(uptake, heart_rate, max_heart_rate)",
            "vo2max: extrapolate(uptake, heart_rate, max_heart_rate) - 50 mL/kg/min");
    assertThat(reasons(walked(wrong, 116, 136), "stages_line"))
        .containsExactly(
            "implausible: -9.3 mL/kg/min; check mass, heart rates, loads and their units");
  }

  @Test
  void theRangeStandsInAFileWithItsSource() {
    assertThat(Walks.WALK.assessment().plausible().orElseThrow().range())
        .hasToString("5 mL/kg/min to 100 mL/kg/min");
    assertThat(Walks.WALK.assessment().plausible().orElseThrow().source().isNamed()).isTrue();
    Protocol narrow =
        edited("common-results", List.of("5 mL/kg/min to 100", "5 mL/kg/min to 30")).protocol(WALK);
    assertThat(walked(narrow, 116, 136).headline()).isEmpty();
    assertThat(walked(Walks.WALK, 116, 136).headline()).isPresent();
  }

  @Property(tries = 300, seed = "20261130")
  void noHeadlineIsImplausibleAndNoIntervalReachesBelowZero(
      @ForAll @Size(min = 1, max = 4) List<@IntRange(min = 40, max = 200) Integer> rates) {
    double[] told = rates.stream().mapToDouble(rate -> rate).toArray();
    Outcome outcome = Walked.walk(ANY_LINE, WOMAN, told).outcome();
    Capacity capacity = Capacity.of(outcome);
    capacity.headline().ifPresent(best -> assertThat(best.vo2max().amount()).isBetween(5.0, 100.0));
    assertThat(Headline.of(outcome).map(Headline::vo2max))
        .isEqualTo(capacity.headline().map(Estimate.Available::vo2max));
    for (Estimate estimate : capacity.estimates()) {
      if (estimate instanceof Estimate.Available available) {
        available
            .interval()
            .ifPresent(around -> assertThat(around.low().amount()).isGreaterThanOrEqualTo(0));
      }
    }
  }

  // One reading is off by 2.5 bpm and by its step: 1 bpm has a standard deviation of 0.29, together
  // 2.52. The slope over two stages lies (d / 2.52) / root 2 standard errors above zero: 1.7 for 6
  // bpm, 2.2 for 8 bpm.
  @Test
  void twoStagesThatDifferByLessThanReadingsMayBeOffMakeNoLine() {
    assertThat(reasons(walked(ANY_LINE, 120, 121), "stages_line"))
        .containsExactly(
            "the line through the stages: it does not rise by clearly more than the readings may"
                + " be off");
    assertThat(reasons(walked(ANY_LINE, 120, 126), "stages_line")).isNotEmpty();
    assertThat(reasons(walked(ANY_LINE, 120, 128), "stages_line")).isEmpty();
  }

  // Counted for 10 s a step is 6 bpm, its standard deviation 1.73; with 2.5 bpm 3.04, and 8 bpm are
  // no more than 1.86 standard errors.
  @Test
  void theCoarserTheReadingsTheMoreTheyHaveToDiffer() {
    assertThat(reasons(coarse(120, 128), "stages_line")).isNotEmpty();
    assertThat(reasons(coarse(120, 130), "stages_line")).isEmpty();
  }

  private static Capacity coarse(double first, double second) {
    return Capacity.of(Walked.walk(ANY_LINE, WOMAN, counted(first), counted(second)).outcome());
  }

  private static Reading counted(double rate) {
    return new Reading.Measured("heart_rate", bpm(rate), Optional.of(bpm(6)), Optional.empty());
  }

  // 112, 134 and 121 bpm at 16.27, 24.69 and 35.63 mL/kg/min: by the readings alone 2.1 standard
  // errors, but by the scatter around the line 72.5 / root of 40,900 = 0.36.
  @Test
  void stagesThatScatterMakeNoLine() {
    assertThat(reasons(walked(ANY_LINE, 112, 134, 121), "stages_line")).isNotEmpty();
    assertThat(reasons(walked(ANY_LINE, 112, 121, 134), "stages_line")).isEmpty();
  }

  // The line is to be read at 138 bpm, between the second stage and the third.
  @Test
  void aLastStageThatWasBrokenOffIsNotPassedOverInSilence() {
    String usable = "from: usable stages, at least 2";
    String at138 = "vo2max: extrapolate(uptake, heart_rate, 138 bpm)";
    String atMaximum = "vo2max: extrapolate(uptake, heart_rate, max_heart_rate)";
    Capacity last = brokenOffInTheThird(edited(usable, "from: last 2 stages", atMaximum, at138));
    assertThat(reasons(last, "stages_line"))
        .containsExactly("needs last 2 stages; stage walk_3 was broken off after 1:30");
    Capacity completed =
        brokenOffInTheThird(edited(usable, "from: last 2 completed stages", atMaximum, at138));
    assertThat(completed.headline().orElseThrow().cautions())
        .contains(
            "Stage walk_3 was broken off after 1:30; the estimate rests on the stages before it.");
  }

  private static Capacity brokenOffInTheThird(Protocol protocol) {
    Session session = Walked.walk(protocol, WOMAN, 112, 126);
    Session third = Walks.ready(protocol, WOMAN);
    third.follow(third.decide(at("0:00")));
    for (int i = 0; i < 2; i++) {
      Reading rate = heartRate(i == 0 ? 112 : 126);
      third.record(at(i == 0 ? "2:00" : "5:00"), rate);
      third.record(at(i == 0 ? "3:00" : "6:00"), rate);
      third.override(
          at(i == 0 ? "3:00" : "6:00"), new Verdict.Advance("walk_" + (i + 2)), "one more");
    }
    third.record(at("7:30"), heartRate(141));
    third.override(at("7:30"), new Verdict.Finish(), "enough");
    assertThat(session.outcome().stages()).hasSize(2);
    return Capacity.of(third.outcome());
  }

  // 10 m more or less are 0.1 mL/kg/min either way: true of the reading, and no interval.
  @Test
  void aRunWhoseMethodHasNoFigureHasNoIntervalFromTheStepOfItsDistanceAlone() {
    Library without = edited("run-12min", List.of("    model: maximal_run\n", ""));
    Session session = ran2400(without.protocol("run-12min"));
    Estimate.Available best = Capacity.of(session.outcome()).headline().orElseThrow();
    assertThat(best.vo2max().rounded(1)).hasToString("42.4 mL/kg/min");
    assertThat(best.interval()).isEmpty();
    assertThat(best.cautions())
        .anySatisfy(
            caution ->
                assertThat(caution)
                    .startsWith("No interval: no error of this method is published.")
                    .contains("leaves out how much people differ"));
    assertThat(Report.of(session).text()).contains("its error is not known");
  }

  // 5.4 mL/kg/min stand in common-spreads.yaml for maximal runs; the step of the distance adds
  // nothing
  // to speak of. 1.96 times 5.4 are 10.6 to either side.
  @Test
  void aRunWithoutAPublishedErrorTakesTheWidestOfItsKind() {
    Session session = ran2400(Bundled.library().protocol("run-12min"));
    Estimate.Available best = Capacity.of(session.outcome()).headline().orElseThrow();
    Interval interval = best.interval().orElseThrow();
    assertThat(interval.model().amount()).isEqualTo(5.4, within(1e-9));
    assertThat(interval).hasToString("31.8 to 52.9 mL/kg/min");
    assertThat(interval.shares().get(0).name()).isEqualTo("model: maximal run");
    assertThat(interval.shares().get(0).source().text()).contains("shuttle run in levels");
    assertThat(best.cautions()).anyMatch(caution -> caution.contains("the widest of its kind"));
  }

  private static Session ran2400(Protocol run) {
    Session session = Session.open(run, Walked.person(30, Sex.MALE, 75).build());
    session.override(at("0:00"), new Verdict.Ready("run", List.of()), "everything is asked");
    session.record(at("12:00"), measured("covered", Quantity.of(2400, Unit.METRE)));
    if (session.phase() == org.gradus.session.Phase.STAGE) {
      session.follow(session.decide(at("12:00")));
    }
    return session;
  }

  // 3.5 + 483 / 12 = 43.75 mL/kg/min; 7 % of it are 3.06, 1.96 times to either side. The man is too
  // old for the other form.
  @Test
  void aRunForTimeHasTheIntervalOfTheRunningEquationItIsMadeOf() {
    Protocol run = Bundled.library().protocol("run-1.5mile");
    Session session = Session.open(run, Walked.person(35, Sex.MALE, 75).build());
    session.override(at("0:00"), new Verdict.Ready("run", List.of()), "everything is asked");
    session.done(at("12:00"));
    if (session.phase() == org.gradus.session.Phase.STAGE) {
      session.follow(session.decide(at("12:00")));
    }
    Estimate.Available best = Capacity.of(session.outcome()).headline().orElseThrow();
    assertThat(best.id()).isEqualTo("guideline_form");
    assertThat(best.interval().orElseThrow()).hasToString("37.7 to 49.8 mL/kg/min");
  }

  @Test
  void aRunFasterThanAnybodysIsFound() {
    Protocol run = Bundled.library().protocol("run-1.5mile");
    Session session = Session.open(run, Walked.person(25, Sex.MALE, 75).build());
    session.override(at("0:00"), new Verdict.Ready("run", List.of()), "everything is asked");
    session.done(at("5:00"));
    if (session.phase() == org.gradus.session.Phase.STAGE) {
      session.follow(session.decide(at("5:00")));
    }
    assertThat(Capacity.of(session.outcome()).findings())
        .extracting(Finding::rule)
        .contains("faster-than-anybody");
  }

  @Test
  void aPulseAboveTheMaximumIsFound() {
    Person measured = Walked.person(46, Sex.FEMALE, 71).measuredMaxHeartRate(bpm(130)).build();
    assertThat(Capacity.of(Walked.walk(measured, 116, 136).outcome()).findings())
        .extracting(Finding::rule)
        .contains("beyond-maximum")
        .doesNotContain("above-maximum");
    assertThat(walked(Walks.WALK, 116, 136).findings()).isEmpty();
  }
}
