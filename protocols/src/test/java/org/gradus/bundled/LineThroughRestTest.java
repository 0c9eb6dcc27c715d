package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.capacity.Interval;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.protocol.Person.Sex;
import org.gradus.protocol.Protocol;
import org.hipparchus.linear.MatrixUtils;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.stat.regression.OLSMultipleLinearRegression;
import org.hipparchus.stat.regression.SimpleRegression;
import org.junit.jupiter.api.Test;

/**
 * The line through rest against other ways to come by it. Everybody here has 68 bpm at rest and a
 * maximum of 220 - age.
 */
class LineThroughRestTest {

  private static final double REST = 68;
  private static final double RESTING_UPTAKE = 3.5;
  private static final double REST_SPREAD = 8;
  private static final double READING = Math.hypot(2.5, 1 / Math.sqrt(12));

  /** The cost of the first three stages, worked by hand with 1 mph = 26.8224 m/min. */
  private static final double[] UPTAKES = {16.26759, 24.68982, 35.60119};

  private static Capacity walked(Protocol protocol, double... rates) {
    Person woman = Walked.person(46, Sex.FEMALE, 71).build();
    return Capacity.of(Walked.walk(protocol, woman, rates).outcome());
  }

  private static Estimate.Available throughRest(Protocol protocol, double... rates) {
    Estimate found = walked(protocol, rates).estimate("through_rest").orElseThrow();
    assertThat(found.reasons()).isEmpty();
    return (Estimate.Available) found;
  }

  private static double vo2max(Protocol protocol, double... rates) {
    return throughRest(protocol, rates).vo2max().amount();
  }

  private static Protocol with(Map<String, String> changes) {
    List<SourceFile> files = new ArrayList<>();
    for (SourceFile file : Bundled.files()) {
      String text = file.text();
      for (Map.Entry<String, String> change : changes.entrySet()) {
        text = text.replace(change.getKey(), change.getValue());
      }
      files.add(SourceFile.of(file.name(), text));
    }
    return Library.of(files).protocol("graded-walk-standard");
  }

  private static Protocol withRestSpread(String spread) {
    return with(
        Map.of(
            "value: 8 bpm\n    range: 5 bpm to 20 bpm",
            "value: " + spread + "\n    range: 0.001 bpm to 1000000 bpm"));
  }

  @Test
  void itIsTheHeadlineWhereARestingRateIsKnown() {
    Capacity capacity = walked(Walks.WALK, 116, 136);
    assertThat(capacity.headline().orElseThrow().id()).isEqualTo("through_rest");
    assertThat(capacity.headline().orElseThrow().assumes()).contains("from rest to the maximum");
    assertThat(capacity.estimates())
        .extracting(Estimate::id)
        .containsSubsequence("through_rest", "stages_line", "single_stage");
  }

  // No published worked answer was found. Worked by hand from the published equality of percent of
  // heart rate reserve and percent of uptake reserve: 120 bpm is (120 - 68) / (174 - 68) = 49.06 %
  // of the reserve, so that 16.27 mL/kg/min lies at 49.06 % of the uptake reserve:
  // 3.5 + 12.76759 / 0.490566 = 29.526.
  @Test
  void withOneStageItIsTheReserveMethod() {
    assertThat(vo2max(Walks.WALK, 120)).isEqualTo(29.526, within(0.001));
  }

  @Test
  void withAVeryUncertainRestItIsThePlainLineOfHeartRateOnUptake() {
    Protocol free = withRestSpread("1000000 bpm");
    double[] rates = {112, 121, 140};
    SimpleRegression line = new SimpleRegression();
    for (int i = 0; i < rates.length; i++) {
      line.addData(UPTAKES[i], rates[i]);
    }
    assertThat(vo2max(free, rates))
        .isEqualTo((174 - line.getIntercept()) / line.getSlope(), within(0.001));
  }

  @Test
  void withACertainRestItPassesThroughRest() {
    double[] rates = {112, 121, 140};
    SimpleRegression line = new SimpleRegression(false);
    for (int i = 0; i < rates.length; i++) {
      line.addData(UPTAKES[i] - RESTING_UPTAKE, rates[i] - REST);
    }
    assertThat(vo2max(withRestSpread("0.001 bpm"), rates))
        .isEqualTo(RESTING_UPTAKE + (174 - REST) / line.getSlope(), within(0.001));
  }

  /** Intercept and slope by another library, with their covariance. */
  private record Fit(double intercept, double slope, RealMatrix covariance) {

    static Fit of(double... rates) {
      int n = rates.length + 1;
      double[] y = new double[n];
      double[][] x = new double[n][2];
      for (int i = 0; i < n; i++) {
        boolean anchor = i == rates.length;
        double sd = anchor ? REST_SPREAD : READING;
        y[i] = (anchor ? REST : rates[i]) / sd;
        x[i][0] = 1 / sd;
        x[i][1] = (anchor ? RESTING_UPTAKE : UPTAKES[i]) / sd;
      }
      OLSMultipleLinearRegression regression = new OLSMultipleLinearRegression();
      regression.setNoIntercept(true);
      regression.newSampleData(y, x);
      double[] found = regression.estimateRegressionParameters();
      RealMatrix design = MatrixUtils.createRealMatrix(x);
      return new Fit(found[0], found[1], MatrixUtils.inverse(design.transposeMultiply(design)));
    }

    double at(double rate) {
      return (rate - intercept) / slope;
    }

    /** The standard deviation of an uptake at a rate that is exact, to first order. */
    double sd(double rate) {
      double uptake = at(rate);
      double variance =
          covariance.getEntry(0, 0)
              + uptake * uptake * covariance.getEntry(1, 1)
              + 2 * uptake * covariance.getEntry(0, 1);
      return Math.sqrt(variance) / slope;
    }
  }

  @Test
  void theLineIsTheWeightedFitOfAnotherLibrary() {
    for (double[] rates : new double[][] {{121}, {112, 140}, {112, 121, 140}, {114, 132, 147}}) {
      assertThat(vo2max(Walks.WALK, rates)).isEqualTo(Fit.of(rates).at(174), within(0.001));
    }
  }

  @Test
  void theIntervalHoldsTheCovarianceOfTheFit() {
    double[] rates = {112, 121, 140};
    Interval interval = throughRest(Walks.WALK, rates).interval().orElseThrow();
    double ofFit =
        interval.shares().stream()
            .filter(
                share ->
                    share.name().startsWith("anchor")
                        || share.name().equals("heart rate reading to reading")
                        || share.name().equals("heart rate: step of reading"))
            .mapToDouble(share -> Math.pow(share.sd().amount(), 2))
            .sum();
    assertThat(Math.sqrt(ofFit)).isEqualTo(Fit.of(rates).sd(174), within(0.05));
    double maximum =
        interval.shares().stream()
            .filter(share -> share.name().startsWith("maximal heart rate"))
            .mapToDouble(share -> share.sd().amount())
            .sum();
    assertThat(maximum).isEqualTo(12.4 / Fit.of(rates).slope(), within(0.001));
    assertThat(interval.shares())
        .extracting(Interval.Share::name)
        .containsExactlyInAnyOrder(
            "maximal heart rate (220 - age)",
            "oxygen cost (walking)",
            "heart rate day to day",
            "heart rate reading to reading",
            "heart rate: step of reading",
            "anchor of the line (resting heart rate)",
            "model: straight line");
  }

  @Test
  void withoutARestingRateThePlainLineIsTheHeadlineAndTheGapIsNamed() {
    Person woman = Walked.person(46, Sex.FEMALE, 71).build();
    Capacity capacity = Capacity.of(Walked.withoutResting(woman, 116, 136).outcome());
    assertThat(capacity.headline().orElseThrow().id()).isEqualTo("stages_line");
    assertThat(capacity.estimate("through_rest").orElseThrow().reasons())
        .containsExactly("resting heart rate: never taken");
  }

  @Test
  void whatItIsAnchoredAtIsAmongWhatItRestsOn() {
    Estimate.Ingredient anchor =
        throughRest(Walks.WALK, 116, 136).ingredients().stream()
            .filter(part -> part.name().equals("anchor of the line"))
            .findFirst()
            .orElseThrow();
    assertThat(anchor.value()).isEqualTo("68 bpm");
    assertThat(anchor.how()).isEqualTo("resting.heart_rate at 3.5 mL/kg/min");
    assertThat(anchor.spread().orElseThrow()).hasToString("8 bpm");
    assertThat(anchor.source().toString()).contains("1997;29:410-414");
  }

  // Without spreads and steps nothing says how much a stage counts beside the anchor.
  @Test
  void readingsWhoseErrorsAreNotKnownGiveNoLineThroughRest() {
    Protocol unknown =
        with(
            Map.of(
                "sd: 2.5 bpm\n    per: reading", "sd: 2.5 bpm\n    per: test",
                "    range: 25 bpm to 250 bpm\n    step: 1 bpm", "    range: 25 bpm to 250 bpm"));
    assertThat(walked(unknown, 116, 136).estimate("through_rest").orElseThrow().reasons())
        .containsExactly(
            "the line through the stages: no file says how far its readings may be off");
  }

  // The ceiling of 148 bpm ends the first stage at 2:15, before it is complete.
  @Test
  void aStageThatWasBrokenOffAfterTwoMinutesGivesTheLastEstimate() {
    Person woman = Walked.person(46, Sex.FEMALE, 71).build();
    Capacity capacity = Capacity.of(Walked.endedByCeiling(woman, 152).outcome());
    Estimate.Available last = capacity.headline().orElseThrow();
    assertThat(last.id()).isEqualTo("at_the_end");
    assertThat(last.vo2max().amount())
        .isEqualTo(
            RESTING_UPTAKE + (UPTAKES[0] - RESTING_UPTAKE) * (174 - REST) / (152 - REST),
            within(0.001));
    assertThat(last.interval().orElseThrow().shares())
        .extracting(Interval.Share::name)
        .contains("anchor of the line (resting heart rate)", "heart rate reading to reading");
  }

  @Property(tries = 100, seed = "20261130")
  void aFasterHeartAtTheSameLoadsGivesALowerEstimate(
      @ForAll @IntRange(min = 111, max = 118) int first,
      @ForAll @IntRange(min = 2, max = 22) int apart,
      @ForAll @IntRange(min = 1, max = 4) int faster) {
    double slow = vo2max(Walks.WALK, first, first + apart);
    assertThat(vo2max(Walks.WALK, first + faster, first + apart + faster)).isLessThan(slow);
    assertThat(vo2max(Walks.WALK, first, first + apart + faster)).isLessThan(slow);
  }

  // It lies between what it comes to with a certain rest and with a rest that says nothing.
  @Property(tries = 100, seed = "20261130")
  void itLiesBetweenItsTwoLimits(
      @ForAll @IntRange(min = 111, max = 118) int first,
      @ForAll @IntRange(min = 8, max = 26) int apart) {
    double anchored = vo2max(CERTAIN, first, first + apart);
    Estimate free = walked(FREE, first, first + apart).estimate("through_rest").orElseThrow();
    Assume.that(free instanceof Estimate.Available);
    double plain = ((Estimate.Available) free).vo2max().amount();
    assertThat(vo2max(Walks.WALK, first, first + apart))
        .isBetween(Math.min(anchored, plain) - 1e-6, Math.max(anchored, plain) + 1e-6);
  }

  private static final Protocol CERTAIN = withRestSpread("0.001 bpm");
  private static final Protocol FREE = withRestSpread("1000000 bpm");

  @Property(tries = 50, seed = "20261130")
  void aMoreUncertainRestWidensTheInterval(
      @ForAll @IntRange(min = 111, max = 118) int first,
      @ForAll @IntRange(min = 8, max = 26) int apart,
      @ForAll @IntRange(min = 9, max = 20) int spread) {
    Protocol wider = withRestSpread(spread + " bpm");
    assertThat(sd(wider, first, first + apart)).isGreaterThan(sd(Walks.WALK, first, first + apart));
  }

  private static double sd(Protocol protocol, double... rates) {
    return throughRest(protocol, rates).interval().orElseThrow().sd().amount();
  }
}
