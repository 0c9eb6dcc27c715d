package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.gradus.session.Times.at;

import java.time.Duration;
import java.util.List;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Finding;
import org.gradus.capacity.Interval;
import org.gradus.capacity.Result;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.report.Report;
import org.gradus.session.Readings;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/** Results that are no aerobic capacity: worked by hand on an invented rowing test. */
class FurtherResultsTest {

  private static Session rowed(Library library, double... lactates) {
    Person person = Person.builder().age(30).build();
    Session session = Session.open(library.protocol("rowing-lactate"), person);
    session.follow(session.decide(at("0:00")));
    for (int stage = 0; stage < lactates.length; stage++) {
      Duration end = at("4:00").multipliedBy(stage + 1L);
      session.record(
          end.minusSeconds(10),
          Readings.measured("lactate", Quantity.of(lactates[stage], Unit.MMOL_PER_L)));
      session.record(
          end.minusSeconds(5),
          Readings.measured("saturation", Quantity.of(90 + stage, Unit.PERCENT)));
      session.follow(session.decide(end));
    }
    return session;
  }

  private static Result power(Library library, double... lactates) {
    Capacity capacity = Capacity.of(rowed(library, lactates).outcome());
    return capacity.result("power_at_threshold").orElseThrow();
  }

  private static Result power(double... lactates) {
    return power(Laboratory.library(), lactates);
  }

  private static double watts(Result result) {
    return result.value().orElseThrow().in(Unit.WATT);
  }

  @Test
  void itIsReadBetweenTheTwoNeighbouringStages() {
    // 4 lies two thirds of the way from 3 to 4.5: 160 W and two thirds of 40 W.
    assertThat(watts(power(1.5, 3.0, 4.5))).isEqualTo(186.667, within(0.001));
    // A dip at the start does not matter, nor that a stage lies on the value.
    assertThat(watts(power(2.5, 1.5, 5.5))).isEqualTo(185, within(0.001));
    assertThat(watts(power(1.5, 4.0, 6.5))).isEqualTo(160, within(0.001));
  }

  @Test
  void itIsNeverReadBeyondTheStages() {
    assertThat(power(1.2, 2.1, 3.2).reasons())
        .containsExactly("lactate 4 mmol/L, highest 3.2 mmol/L: not reached");
    assertThat(power(4.6, 5.1, 7.2).reasons())
        .containsExactly("lactate 4 mmol/L, lowest 4.6 mmol/L: not reached");
    assertThat(power(3.0, 4.8, 3.2).reasons())
        .containsExactly("lactate 4 mmol/L: reached more than once");
    assertThat(power(1.2).reasons()).containsExactly("needs completed stages, at least 2; found 1");
  }

  @Test
  void aReadingThatWasNotTakenLeavesItUnknown() {
    Session session = rowed(Laboratory.library(), 1.5, 3.0);
    session.record(at("11:50"), Readings.measured("saturation", Quantity.of(91, Unit.PERCENT)));
    assertThat(session.decide(at("12:00")).verdict())
        .describedAs("only a result needs it, and it is waited for")
        .isInstanceOf(Verdict.Measure.class);
    session.follow(session.decide(at("14:00")));
    Result result = Capacity.of(session.outcome()).result("power_at_threshold").orElseThrow();
    assertThat(result.isAvailable()).isFalse();
    assertThat(result.words()).contains("lactate");
  }

  @Test
  void theIntervalHoldsTheStepsOfTheReadingsAndTheErrorOfTheMethod() {
    Interval interval = power(1.5, 3.0, 4.5).interval().orElseThrow();
    // By the published error alone: 8 W, which is more than what steps of 0.1 mmol/L make.
    assertThat(interval.sd().in(Unit.WATT)).isEqualTo(8, within(0.001));
    assertThat(interval.basis()).isEqualTo(Interval.Basis.PUBLISHED);
    // A step of 0.1 has a standard deviation of 0.1 / sqrt(12); the answer falls by 40 W / 1.5 for
    // each mmol/L more in the third stage times 2/3, in the second times 1/3.
    double each = 0.1 / Math.sqrt(12) * 40 / 1.5;
    double propagated = each * Math.sqrt(4 / 9.0 + 1 / 9.0);
    assertThat(interval.propagated().in(Unit.WATT)).isEqualTo(propagated, within(0.01));
  }

  @Test
  void itStandsBesideWhatIsExpected() {
    // 260 - 36 = 224 W; 186.667 / 224 is 83.3 %.
    assertThat(power(1.5, 3.0, 4.5).words())
        .isEqualTo("187 W, 83 % of predicted; lower limit 164 W; upper limit 294 W");
  }

  @Test
  void theHeadlineComesFirstAndRulesMayNameResults() {
    Capacity capacity = Capacity.of(rowed(Laboratory.library(), 3.5, 4.5, 9).outcome());
    assertThat(capacity.results())
        .extracting(Result::id)
        .containsExactly("power_at_threshold", "lowest_saturation");
    assertThat(capacity.results().get(1).words()).isEqualTo("92 %");
    assertThat(watts(capacity.results().get(0))).isEqualTo(140, within(0.001));
    assertThat(capacity.findings()).extracting(Finding::rule).containsExactly("weak");
    assertThat(capacity.headline()).isEmpty();
  }

  @Test
  void anImplausibleResultIsAFindingAndNoResult() {
    Library library = Laboratory.library("range: 40 W to 500 W", "range: 40 W to 150 W");
    Capacity capacity = Capacity.of(rowed(library, 1.5, 3.0, 4.5).outcome());
    Result result = capacity.results().get(0);
    assertThat(result.isAvailable()).isFalse();
    assertThat(result.words())
        .isEqualTo("implausible: 187 W; check power and lactate of each step");
    assertThat(capacity.findings())
        .extracting(Finding::rule)
        .contains("implausible-power-at-threshold");
  }

  @Test
  void theReportShowsThem() {
    Report report = Report.of(rowed(Laboratory.library(), 1.5, 3.0, 4.5));
    assertThat(report.text())
        .contains("Power at the lactate threshold: 187 W, 83 % of predicted")
        .contains("Saturation at the end", "Results with what is expected of such a person")
        .doesNotContain("No aerobic capacity could be estimated");
    assertThat(report.html()).contains("Power at the lactate threshold");
  }

  // The bundled rowing test has nobody to compare with.
  @Test
  void whereNothingIsExpectedTheReportDoesNotSaySo() {
    Person person = Walks.otto();
    Session session = Session.open(Bundled.library().protocol("row-steps"), person);
    assertThat(Report.of(session).text())
        .contains("Each result")
        .doesNotContain("expected of such a person");
  }

  @Test
  void whatCannotBeIsRefused() {
    List<String> changes =
        List.of(
            "value: stage.saturation -> value: stage.power -> G",
            "headline: power_at -> headline: power_of -> there is no estimate or result called",
            "id: lowest_saturation -> id: lactate -> lactate is not a free name",
            "interpolate(power, lactate, threshold) -> interpolate(power, lactate, 4 W) -> G204",
            "interpolate(power, lactate, threshold) -> interpolate(power, lactate, 2 mmol/L + 2 mmol/L) -> G213",
            "unit: W -> unit: watts -> watts is not a unit",
            "range: 40 W to 500 W -> range: 40 bpm to 90 bpm -> its plausible range is",
            "sd: 8 W -> sd: 8 bpm -> G305");
    for (String change : changes) {
      List<String> parts = List.of(change.split(" -> ", -1));
      assertThatThrownBy(() -> Laboratory.library(parts.get(0), parts.get(1)))
          .describedAs(change)
          .hasMessageContaining(parts.get(2));
    }
  }

  @Test
  void aNamedPlaceMayRestOnThePerson() {
    Library library =
        Laboratory.library(
            "threshold: { value: 4 mmol/L, range: 2 mmol/L to 6 mmol/L, source: practice }",
            "x: { value: 1, range: 1 to 2, source: practice }\ndefine: { threshold: \"(1 + (age in years) / 10) as mmol/L\" }");
    assertThat(watts(power(library, 1.5, 3.0, 4.5))).isEqualTo(186.667, within(0.001));
  }
}
