package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Readings.chosen;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.rating;
import static org.gradus.session.Times.at;
import static org.gradus.unit.Quantities.kg;

import java.util.List;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Finding;
import org.gradus.protocol.Person;
import org.gradus.protocol.Person.Sex;
import org.gradus.protocol.Suspicion.Look;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

class PlausibilityTest {

  private static List<String> rules(Capacity capacity) {
    return capacity.findings().stream().map(Finding::rule).toList();
  }

  private static Capacity walked(Person person, double... rates) {
    return Capacity.of(Walked.walk(person, rates).outcome());
  }

  @Test
  void aSoundTestRaisesNoSuspicion() {
    assertThat(Walked.ines().findings()).isEmpty();
  }

  // 29 beats in 15 s are 116 bpm.
  @Test
  void aCountThatWasEnteredAsARateIsFoundWithItsStage() {
    Finding finding =
        walked(Walked.person(46, Sex.FEMALE, 71).build(), 29, 136).findings().stream()
            .filter(found -> found.rule().equals("count-as-rate"))
            .findFirst()
            .orElseThrow();
    assertThat(finding.stages()).containsExactly("walk_1");
    assertThat(finding.suspicion().ingredient()).isEqualTo("heart rate");
    assertThat(finding.suspicion().look()).isEqualTo(Look.SUM);
    assertThat(finding.numbers()).contains("29 bpm").contains("68 bpm");
  }

  // 156 lb are 71 kg.
  @Test
  void poundsEnteredAsKilogramsAreFound() {
    Person pounds =
        Walked.person(46, Sex.FEMALE, 156).height(Quantity.of(168, Unit.CENTIMETRE)).build();
    assertThat(rules(walked(pounds, 116, 136))).contains("pounds-as-kilograms");
    Person sound =
        Walked.person(46, Sex.FEMALE, 71).height(Quantity.of(168, Unit.CENTIMETRE)).build();
    assertThat(rules(walked(sound, 116, 136))).doesNotContain("pounds-as-kilograms");
  }

  @Test
  void aYearOfBirthIsNotEvenTakenAsAnAge() {
    Sessions.assertRefused(
        org.gradus.diagnostic.Code.G502, () -> Walked.person(1978, Sex.FEMALE, 71));
  }

  // Born in 1978 and entered as 64 years, say, or as 78: the maximum comes out far too low.
  @Test
  void aHeartRateFarAboveTheMaximumCastsDoubtOnTheAge() {
    Person wrong = Walked.person(64, Sex.MALE, 71).build();
    Finding finding =
        walked(wrong, 120, 178).findings().stream()
            .filter(found -> found.rule().equals("above-maximum"))
            .findFirst()
            .orElseThrow();
    assertThat(finding.suspicion().ingredient()).isEqualTo("age");
    assertThat(finding.stages()).containsExactly("walk_2");
  }

  @Test
  void aRateThatFallsWithTheLoadIsAMatterOfProcedure() {
    Finding finding =
        walked(Walked.person(46, Sex.FEMALE, 71).build(), 130, 118).findings().stream()
            .filter(found -> found.rule().equals("rate-falls-with-load"))
            .findFirst()
            .orElseThrow();
    assertThat(finding.suspicion().look()).isEqualTo(Look.PROCEDURE);
    assertThat(finding.stages()).containsExactly("walk_2");
  }

  @Test
  void ratingAndRateThatDisagreeAreFound() {
    Session session = Walks.walking(Walks.ines());
    session.record(at("2:00"), heartRate(90));
    session.record(at("2:45"), rating(17, "rpe_6_20"));
    session.record(at("3:00"), heartRate(91));
    session.override(at("3:00"), new Verdict.Finish(), "to look at it");
    assertThat(rules(Capacity.of(session.outcome()))).contains("hard-but-slow");
  }

  // Running at 1.7 mph: the running equation gives 3.5 + 9.12 + 4.10 = 16.72 mL/kg/min, which
  // walking
  // needs 10.6 % for; at 2.5 mph and 12 % it gives 24.16 against 24.69, 11.6 %. At 3.4 mph and 14 %
  // 33.2 against 35.6, 12.6 %: only there the difference is worth a look.
  @Test
  void anUptakeThatIsNotThatOfTheLoadIsFound() {
    Session session = Walks.walking(Walks.ines());
    session.loadSet(
        at("0:10"), new org.gradus.session.Loading("grade", Quantity.of(0, Unit.PERCENT)));
    session.record(at("2:00"), heartRate(110));
    session.record(at("2:45"), chosen("gait", "running"));
    session.record(at("3:00"), heartRate(112));
    session.override(at("3:00"), new Verdict.Finish(), "to look at it");
    assertThat(rules(Capacity.of(session.outcome()))).contains("uptake-and-walking-load");
  }

  // Myers J et al. Prog Cardiovasc Dis 2017: for a woman of 46 years and 71 kg (156.5 lb): 79.9 -
  // 17.9 - 13.7 - 19.9 = 28.4,
  // three
  // standard errors above it 50.0 mL/kg/min.
  @Test
  void anAnswerOutsideTheRangeForAgeAndSexIsFound() {
    Person woman = Walked.person(46, Sex.FEMALE, 71).build();
    assertThat(rules(walked(woman, 111, 120))).contains("high-for-age-and-sex");
    assertThat(walked(woman, 111, 120).headline().orElseThrow().vo2max().amount())
        .isGreaterThan(50.0);
    assertThat(rules(walked(woman, 111, 128))).doesNotContain("high-for-age-and-sex");
  }

  @Test
  void aFindingSaysInOneLineWhatAndWhere() {
    Capacity capacity = walked(Walked.person(46, Sex.FEMALE, 71).mass(kg(71)).build(), 130, 118);
    assertThat(capacity.findings().stream().map(Finding::toString))
        .anyMatch(line -> line.startsWith("heart rate (walk_2): The heart rate fell"))
        .anyMatch(line -> line.endsWith("First check how it was measured."));
  }
}
