package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.gradus.unit.Quantities.kg;

import java.util.Map;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.knowledge.IntensityBands;
import org.gradus.library.Equation;
import org.gradus.training.WeeklyMinutes;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/** The minutes a week that spend an energy. */
class WeeklyMinutesTest {

  private static final IntensityBands BANDS = Bundled.library().bands("bands-2011");

  private static WeeklyMinutes minutes(double kcal, int days, Quantity uptake, double mass) {
    return WeeklyMinutes.of(BANDS, Quantity.of(kcal, Unit.KCAL), days, uptake, kg(mass));
  }

  // Printed: 13.8 mL/kg/min for 30 min spend 103.5 kcal at 50 kg (course page on treadmill energy),
  // 17.4 mL/kg/min for 30 min 235 kcal at 90 kg (university answer sheet).
  @Test
  void thePrintedMinutesSpendThePrintedEnergy() {
    WeeklyMinutes light = minutes(103.5, 1, Quantity.of(13.8, Unit.ML_PER_KG_PER_MINUTE), 50);
    assertThat(light.by().get(0).week().in(Unit.MINUTE)).isEqualTo(30, within(0.01));
    WeeklyMinutes heavy = minutes(235, 1, Quantity.of(17.4, Unit.ML_PER_KG_PER_MINUTE), 90);
    assertThat(heavy.by().get(0).week().in(Unit.MINUTE)).isEqualTo(30, within(0.05));
  }

  // Printed: 9 MET at 70 kg are 10.5 kcal/min by MET, kilogram and hour. By 5 kcal a litre they are
  // 11.03 (computed): 1000 kcal take 95.2 and 90.7 min.
  @Test
  void theOtherConventionStandsBesideIt() {
    WeeklyMinutes week = minutes(1000, 5, Quantity.of(9, Unit.MET), 70);
    assertThat(week.by())
        .extracting(WeeklyMinutes.By::convention)
        .containsExactly("five_kcal_per_litre", "met_kilogram_hours");
    assertThat(week.by().get(1).rate()).hasToString("10.5 kcal/min");
    assertThat(week.by().get(1).source().toString()).contains("1 kcal per kilogram and hour");
    assertThat(week)
        .hasToString(
            "91 min a week, 18 min on each of 5 days, by five kcal per litre; "
                + "95 min a week, 19 min on each of 5 days, by met kilogram hours");
  }

  @Property(tries = 200)
  void theMinutesSpendTheEnergyByTheEquationOfTheLibrary(
      @ForAll @DoubleRange(min = 50, max = 5000) double kcal,
      @ForAll @IntRange(min = 1, max = 7) int days,
      @ForAll @DoubleRange(min = 1.5, max = 20) double met,
      @ForAll @DoubleRange(min = 30, max = 180) double mass) {
    Quantity uptake = Quantity.of(met, Unit.MET);
    for (WeeklyMinutes.By by : minutes(kcal, days, uptake, mass).by()) {
      Equation rate = Bundled.library().equation(by.convention());
      double each =
          rate.at(Map.of("uptake", uptake, "mass", kg(mass)))
              .value()
              .orElseThrow()
              .in(Unit.KCAL_PER_MINUTE);
      assertThat(each * by.day().in(Unit.MINUTE) * days).isEqualTo(kcal, within(1e-6 * kcal));
    }
  }

  @Test
  void whatCannotBeIsRefused() {
    Quantity met = Quantity.of(6, Unit.MET);
    assertThatThrownBy(() -> minutes(1000, 0, met, 70))
        .isInstanceOf(ReadingRefused.class)
        .hasMessageContaining("1 to 7 days");
    assertThatThrownBy(() -> minutes(-5, 3, met, 70))
        .isInstanceOf(ReadingRefused.class)
        .hasMessageContaining("energy cannot be -5 kcal")
        .hasMessageContaining("above zero");
    assertThatThrownBy(() -> minutes(1000, 3, Quantity.of(6, Unit.KCAL), 70))
        .isInstanceOf(ReadingRefused.class)
        .hasMessageContaining("uptake cannot be 6 kcal");
  }
}
