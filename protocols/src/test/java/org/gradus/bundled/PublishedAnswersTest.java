package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.gradus.bundled.Walks.WALK;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Times.at;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.protocol.Person.Sex;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Stage;
import org.gradus.rule.check.Demand;
import org.gradus.rule.plan.Frame;
import org.gradus.session.Decision;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantities;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;

/** The bundled figures against what was published, each with its source beside it. */
class PublishedAnswersTest {

  // Bruce RA, Kusumi F, Hosmer D. Am Heart J 1973;85:546-562; stage 7 as reproduced in secondary
  // sources.
  @Test
  void theStagesAreThoseOfThePublication() {
    assertThat(WALK.stages().stream().map(PublishedAnswersTest::shown))
        .containsExactly(
            "3 min 1.7 mph 10 %",
            "3 min 2.5 mph 12 %",
            "3 min 3.4 mph 14 %",
            "3 min 4.2 mph 16 %",
            "3 min 5 mph 18 %",
            "3 min 5.5 mph 20 %",
            "3 min 6 mph 22 %");
  }

  private static String shown(Stage stage) {
    Frame nothing = new Frame(WALK.wiring().layout());
    return stage.lasts().toMinutes()
        + " min "
        + stage.loads().stream()
            .map(
                load ->
                    org.gradus.unit.Quantity.ofBase(load.value().value(nothing), load.unit())
                        .toString())
            .collect(Collectors.joining(" "));
  }

  private static double uptake(String equation, double speed, Unit unit, double gradePercent) {
    var line =
        WALK.assessment().costs().stream()
            .filter(cost -> cost.equation().id().equals(equation))
            .findFirst()
            .orElseThrow();
    Frame frame = new Frame(WALK.wiring().layout());
    List<Demand> demands = WALK.wiring().layout().demands();
    Map<String, Double> loads = Map.of("speed", unit.toBase(speed), "grade", gradePercent / 100);
    for (int slot = 0; slot < demands.size(); slot++) {
      Double value = loads.get(demands.get(slot).subject());
      if (value != null && demands.get(slot).aspect() == Demand.Aspect.VALUE) {
        frame.set(slot, value, 0);
      }
    }
    return line.uptake().value(frame);
  }

  // Worked answers of a faculty sheet (Western Washington University), which folds 26.8 m/min per
  // mph and
  // a rounded 0.48 or 0.24 per mph and per cent into its formulas: up to 0.1 away from the exact
  // form. A
  // textbook slide gives 3.5 mph at 10 %, a course page 2.5 mph at 3 %, another 8 mph level in
  // class.
  @ParameterizedTest
  @CsvSource({
    "walking, 3.5, 10, 29.76",
    "walking, 2.5, 3, 13.8",
    "walking, 3.0, 5, 18.74",
    "walking, 3.0, 3, 15.86",
    "walking, 2.5, 6, 17.4",
    "walking, 3.7, 5, 22.296",
    "walking, 3.9, 0, 13.952",
    "walking, 3.7, 10, 31.2",
    "running, 8.0, 0, 46.38",
    "running, 6.0, 10, 50.06",
    "running, 9.0, 0, 51.74",
  })
  void walkingAndRunningGiveThePublishedAnswers(
      String equation, double mph, double grade, double published) {
    assertThat(uptake(equation, mph, Unit.MPH, grade)).isEqualTo(published, within(0.12));
  }

  // Inverse problems of the same sheets: 7 MET at 10 % is 75 m/min, 8 MET level is 122.5 m/min at a
  // jog.
  @Test
  void theInverseProblemsComeOutTheSame() {
    assertThat(uptake("walking", 75, Unit.METRE_PER_MINUTE, 10)).isEqualTo(24.5, within(0.01));
    assertThat(uptake("running", 122.5, Unit.METRE_PER_MINUTE, 0)).isEqualTo(28.0, within(0.01));
  }

  // National Center for Health Statistics, Cardiovascular Fitness Procedures Manual, appendix H
  // (public
  // domain); printed to one decimal, some to none: within 0.2.
  @ParameterizedTest
  @CsvFileSource(resources = "survey-walk.csv", numLinesToSkip = 1)
  void walkingGivesThePrintedUptakesOfTheNationalSurvey(
      int level, String part, double mph, double grade, double printed) {
    assertThat(uptake("walking", mph, Unit.MPH, grade))
        .as("level %d, %s", level, part)
        .isEqualTo(printed, within(0.2));
  }

  // The same manual, appendix G: a man of 40 years, 120 bpm at 23.3 and 140 bpm at 31.4 mL/kg/min,
  // slope
  // 2.469, intercept 62.47, capacity 47.6. The uptakes are given there, so they stand for the loads
  // here.
  @Test
  void theLineThroughTwoStagesGivesTheSurveysWorkedExample() {
    double capacity = surveyExample(40);
    assertThat(capacity).isEqualTo(47.6, within(0.001));
    // The same line read at another maximum gives its slope and its intercept.
    double slope = (190 - 180) / (surveyExample(30) - capacity);
    assertThat(slope).isEqualTo(2.469, within(0.0005));
    assertThat(180 - slope * capacity).isEqualTo(62.47, within(0.01));
  }

  private static double surveyExample(int age) {
    Protocol survey =
        Library.of(List.of(SourceFile.of("survey-example.yaml", SURVEY_EXAMPLE)))
            .protocol("survey-example");
    Person man = Person.builder().age(age).sex(Sex.MALE).lowersHeartRate(false).build();
    Session session = Session.open(survey, man);
    session.follow(session.decide(Duration.ZERO));
    Decision advance = session.record(at("3:00"), heartRate(120));
    assertThat(advance.verdict()).isInstanceOf(Verdict.Advance.class);
    session.follow(advance);
    session.follow(session.record(at("6:00"), heartRate(140)));
    Estimate.Available line =
        (Estimate.Available)
            Capacity.of(session.outcome()).estimate("two_point_line").orElseThrow();
    return line.vo2max().amount();
  }

  private static final String SURVEY_EXAMPLE =
      """
      format: 1
      kind: protocol
      id: survey-example
      version: 1.0.0
      title: Two stages whose uptakes are given
      ergometer: treadmill
      purpose: submaximal
      for: { age: 12 years to 49 years, needs: [age] }
      signals:
        heart_rate: { kind: heart_rate, range: 25 bpm to 250 bpm, source: practice }
      define:
        max_rate: (220 - (age in years)) as bpm
        level: if stage is first then 23.3 mL/kg/min else 31.4 mL/kg/min
      before:
        rules:
          - defer when lowers_heart_rate
      measure:
        - { read: heart_rate, before_end: 0 s, if_missing: wait }
      stages:
        - { id: first, lasts: 3 min }
        - { id: second, lasts: 3 min }
      stage_end:
        - finish when heart_rate > max_rate
        - advance
      estimates:
        - id: two_point_line
          from: last 2 stages
          vo2max: extrapolate(level, heart_rate, max_rate)
      """;

  // Fox SM et al. 1971, as printed in all secondary sources: 220 - age.
  @ParameterizedTest
  @CsvSource({"20, 200", "40, 180", "64, 156"})
  void theAgePredictedMaximumIs220MinusAge(int age, double bpm) {
    Person person =
        Person.builder()
            .age(age)
            .sex(Sex.MALE)
            .mass(Quantities.kg(70))
            .cleared(true)
            .lowersHeartRate(false)
            .build();
    Session session = Walks.walking(person, 111, 112);
    Decision decision = session.decide(at("3:00"));
    session.follow(decision, decision.offers().get(0));
    Estimate.Available estimate = Capacity.of(session.outcome()).headline().orElseThrow();
    assertThat(estimate.ingredients())
        .filteredOn(ingredient -> ingredient.name().equals("max_heart_rate"))
        .extracting(Estimate.Ingredient::value)
        .containsExactly(Quantities.bpm(bpm).toString());
  }

  // Implementation check, worked by hand: a man of 40 years at 148 bpm and 24.69 mL/kg/min (2.5
  // mph, 12 %)
  // has 24.69 x (180 - 61) / (148 - 61) = 33.77. The coefficients are a textbook attribution,
  // unchecked.
  @Test
  void theSingleStageModelIsWorkedOutAsWritten() {
    Person man =
        Person.builder()
            .age(40)
            .sex(Sex.MALE)
            .mass(Quantities.kg(70))
            .cleared(true)
            .lowersHeartRate(false)
            .build();
    Session session = Walks.walking(man);
    session.override(at("0:10"), new Verdict.Advance("walk_2"), "to check one stage");
    session.record(at("2:10"), heartRate(147));
    Decision finish = session.record(at("3:10"), heartRate(148));
    assertThat(finish.verdict()).isInstanceOf(Verdict.Finish.class);
    session.follow(finish);
    Estimate.Available estimate =
        (Estimate.Available) Capacity.of(session.outcome()).estimate("single_stage").orElseThrow();
    assertThat(estimate.vo2max().amount()).isEqualTo(33.77, within(0.01));
  }
}
