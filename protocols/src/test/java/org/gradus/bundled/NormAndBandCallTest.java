package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.gradus.unit.Quantities.bpm;

import java.util.Map;
import org.gradus.capacity.Standing;
import org.gradus.diagnostic.NotFound;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.knowledge.IntensityBands;
import org.gradus.knowledge.NormTable;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.protocol.Person.Sex;
import org.gradus.training.BandPlan;
import org.gradus.training.LoadPlan;
import org.gradus.training.Training;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/** Norms and bands that a host works out by themselves, without a test. */
class NormAndBandCallTest {

  private static final Library LIBRARY = Bundled.library();
  private static final NormTable WOMEN = LIBRARY.norm("treadmill_2015_women");
  private static final IntensityBands BANDS = LIBRARY.bands("bands-2011");
  private static final Quantity OF_27 = uptake(27);

  private static Quantity uptake(double amount) {
    return Quantity.of(amount, Unit.ML_PER_KG_PER_MINUTE);
  }

  private static Person woman(int age) {
    return Walked.person(age, Sex.FEMALE, 65).build();
  }

  // The registry of 2015 has medians of 37.6 at 20 to 29 and 18.3 at 70 to 79 years (abstract).
  @Test
  void aValueIsLookedUpInATable() {
    assertThat(Standing.of(WOMEN, woman(25), uptake(37.6)).words()).isEqualTo("at percentile 50");
    assertThat(Standing.of(WOMEN, woman(74), uptake(18.4)).words())
        .isEqualTo("between percentiles 50 and 75");
    assertThat(Standing.of(WOMEN, woman(25), OF_27).table().source().toString())
        .contains("2015;90:1515");
  }

  @Test
  void aTableForOthersAndAnUnknownAgeHaveNoPlaceAndSayWhy() {
    Person man = Walked.person(25, Sex.MALE, 75).build();
    assertThat(Standing.of(WOMEN, man, OF_27)).isInstanceOf(Standing.Nowhere.class);
    assertThat(Standing.of(WOMEN, man, OF_27).words()).contains("it applies only when sex");
    Person ageless = Person.builder().sex(Sex.FEMALE).build();
    assertThat(Standing.of(WOMEN, ageless, OF_27).words()).isEqualTo("the age is not known");
    assertThat(Standing.of(WOMEN, woman(90), OF_27).words()).contains("no figures for 90 years");
  }

  @Test
  void everyTableOfTheLibraryCanBeAsked() {
    for (NormTable table : LIBRARY.norms()) {
      int middle = (table.ages().get(0).from() + table.ages().get(0).to()) / 2;
      for (Sex sex : Sex.values()) {
        Person person = Walked.person(middle, sex, 70).build();
        Quantity value =
            Quantity.of(table.unit().kind() == Unit.BPM.kind() ? 100 : 30, table.unit());
        assertThat(Standing.of(LIBRARY.norm(table.id()), person, value).words()).isNotBlank();
      }
    }
  }

  @Test
  void aValueOfAnotherKindAndAnUnknownTableAreRefused() {
    assertThatThrownBy(() -> Standing.of(WOMEN, woman(25), bpm(27)))
        .isInstanceOf(ReadingRefused.class)
        .hasMessageContaining("vo2max cannot be 27 bpm")
        .hasMessageContaining("mL/kg/min");
    assertThatThrownBy(() -> LIBRARY.norm("treadmill_2015"))
        .isInstanceOf(NotFound.class)
        .hasMessageContaining("treadmill_2015_women");
  }

  // 60 + 0.40 x (180 - 60) = 108 and 60 + 0.59 x 120 = 130.8 bpm; 3.5 + 0.40 x (40 - 3.5) = 18.1
  // and
  // 3.5 + 0.59 x 36.5 = 25.0 mL/kg/min; (18.1 - 7) x 65 / 10.8 = 66.8 W.
  @Test
  void bandsAreWorkedOutFromValuesThatAreKnown() {
    Training plan =
        Training.of(
            BANDS,
            woman(40),
            Map.of(
                "resting.heart_rate", bpm(60), "max_heart_rate", bpm(180), "vo2max", uptake(40)));
    BandPlan moderate = plan.band("moderate").orElseThrow();
    assertThat(moderate.heartRate().orElseThrow().rounded(0)).hasToString("108 to 131 bpm");
    assertThat(moderate.heartRateBy()).contains("heart_rate_reserve");
    assertThat(moderate.uptake().orElseThrow().from().orElseThrow().amount())
        .isEqualTo(18.1, within(1e-9));
    assertThat(((LoadPlan.Reachable) moderate.load("leg_cycle").orElseThrow()).load().rounded(0))
        .hasToString("67 to 109 W");
    assertThat(plan.remarks()).noneMatch(remark -> remark.startsWith("No "));
  }

  @Test
  void whatIsNotKnownIsNamedAndTheRatingIsLeft() {
    Training plan = Training.of(BANDS, woman(40), Map.of("max_heart_rate", bpm(180)));
    BandPlan moderate = plan.band("moderate").orElseThrow();
    assertThat(moderate.heartRateBy()).contains("share_of_max_heart_rate");
    assertThat(moderate.uptake()).isEmpty();
    assertThat(moderate.rating().orElseThrow()).hasToString("12 to 13");
    assertThat(plan.remarks()).anyMatch(remark -> remark.startsWith("No uptakes and loads:"));
    assertThat(plan.remarks()).anyMatch(remark -> remark.contains("lacks: resting heart rate"));
  }

  @Test
  void aNameThatMeansNothingAKindThatIsWrongAndZeroAreRefused() {
    assertThatThrownBy(() -> Training.of(BANDS, woman(40), Map.of("vo2", uptake(40))))
        .isInstanceOf(ReadingRefused.class)
        .hasMessageContaining("names are max_heart_rate, resting.heart_rate, vo2max");
    assertThatThrownBy(() -> Training.of(BANDS, woman(40), Map.of("vo2max", bpm(40))))
        .isInstanceOf(ReadingRefused.class)
        .hasMessageContaining("vo2max cannot be 40 bpm");
    assertThatThrownBy(() -> Training.of(BANDS, woman(40), Map.of("vo2max", uptake(0))))
        .isInstanceOf(ReadingRefused.class)
        .hasMessageContaining("above zero");
  }
}
