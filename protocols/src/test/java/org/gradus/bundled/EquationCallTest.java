package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.gradus.diagnostic.NotFound;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.knowledge.EnergyEquation;
import org.gradus.library.Equation;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.protocol.Person.Sex;
import org.gradus.rule.answer.Truth;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/** Equations that a host works out by themselves. */
class EquationCallTest {

  private static final Library LIBRARY = Bundled.library();
  private static final Equation WALKING = LIBRARY.equation("walking");
  private static final Quantity TEN_PERCENT = Quantity.of(10, Unit.PERCENT);

  // 3.5 mph at 10 % take 29.76 mL/kg/min, as printed in an exercise on the metabolic equations.
  @Test
  void anOxygenCostComesWithItsIntervalItsRangeAndItsSource() {
    Equation.Answer answer =
        WALKING.at(Map.of("speed", Quantity.of(3.5, Unit.MPH), "grade", TEN_PERCENT));
    double value = answer.value().orElseThrow().in(Unit.ML_PER_KG_PER_MINUTE);
    assertThat(value).isEqualTo(29.76, within(0.05));
    assertThat(answer.applies()).isEqualTo(Truth.TRUE);
    assertThat(answer.reasons()).isEmpty();
    // 7 % of it, 1.96 times to either side.
    assertThat(answer.interval().orElseThrow().high().in(Unit.ML_PER_KG_PER_MINUTE))
        .isEqualTo(value * 1.1372, within(0.01));
    assertThat(answer.interval().orElseThrow().low().in(Unit.ML_PER_KG_PER_MINUTE))
        .isEqualTo(value * 0.8628, within(0.01));
    assertThat(WALKING.range()).contains("speed between 50 m/min and 100 m/min");
    assertThat(WALKING.sd().orElseThrow()).hasToString("7 %");
    assertThat(WALKING.source().toString()).contains("American College of Sports Medicine");
  }

  @Test
  void beyondItsRangeItSaysThatItDoesNotApply() {
    Equation.Answer answer =
        WALKING.at(Map.of("speed", Quantity.of(5, Unit.MPH), "grade", TEN_PERCENT));
    assertThat(answer.value()).isPresent();
    assertThat(answer.applies()).isEqualTo(Truth.FALSE);
    assertThat(answer.reasons().toString()).contains("it applies only when speed");
  }

  @Test
  void whatIsMissingIsNamed() {
    Equation.Answer answer = WALKING.at(Map.of("speed", Quantity.of(3, Unit.MPH)));
    assertThat(answer.value()).isEmpty();
    assertThat(answer.interval()).isEmpty();
    assertThat(answer.applies()).isEqualTo(Truth.UNKNOWN);
    assertThat(answer.reasons()).containsExactly("grade: not answered");
  }

  // 220 - 46 = 174.
  @Test
  void aMaximumIsWorkedOutForAPerson() {
    Person man = Person.builder().age(46).sex(Sex.MALE).build();
    Equation.Answer general = LIBRARY.equation("general_1971").at(man, Map.of());
    assertThat(general.value().orElseThrow()).hasToString("174 bpm");
    assertThat(general.applies()).isEqualTo(Truth.TRUE);
    assertThat(LIBRARY.equation("women_2010").at(man, Map.of()).applies()).isEqualTo(Truth.FALSE);
  }

  // Printed: 9 MET at 70 kg are 10.5 kcal/min.
  @Test
  void anEnergyIsWorkedOutFromUptakeAndMass() {
    Equation.Answer answer =
        LIBRARY
            .equation("met_kilogram_hours")
            .at(Map.of("uptake", Quantity.of(9, Unit.MET), "mass", Quantity.of(70, Unit.KILOGRAM)));
    assertThat(answer.value().orElseThrow()).hasToString("10.5 kcal/min");
    assertThat(LIBRARY.equation("met_kilogram_hours").at(Map.of()).reasons())
        .containsExactly("uptake: not answered", "mass: not answered");
  }

  @Test
  void aValueOfAnotherKindAndAnUnknownNameAreRefused() {
    assertThatThrownBy(() -> WALKING.at(Map.of("speed", Quantity.of(3, Unit.WATT))))
        .isInstanceOf(ReadingRefused.class)
        .hasMessageContaining("speed cannot be 3 W")
        .hasMessageContaining("it takes a speed");
    assertThatThrownBy(() -> WALKING.at(Map.of("sped", Quantity.of(3, Unit.MPH))))
        .isInstanceOf(ReadingRefused.class)
        .hasMessageContaining("names are age, ");
  }

  @Test
  void anEquationThatIsNotThereIsRefusedWithASuggestion() {
    assertThatThrownBy(() -> LIBRARY.equation("walkin"))
        .isInstanceOf(NotFound.class)
        .hasMessageContaining("walking");
  }

  @Test
  void everyEquationOfTheLibraryCanBeWorkedOut() {
    Map<String, Quantity> all = new HashMap<>();
    all.put("speed", Quantity.of(90, Unit.METRE_PER_MINUTE));
    all.put("grade", TEN_PERCENT);
    all.put("power", Quantity.of(100, Unit.WATT));
    all.put("step_height", Quantity.of(30, Unit.CENTIMETRE));
    all.put("step_rate", Quantity.of(24, Unit.CYCLES_PER_MINUTE));
    Person woman = Walked.person(30, Sex.FEMALE, 65).build();
    List<String> energies =
        LIBRARY.bands("bands-2011").energies().stream().map(EnergyEquation::id).toList();
    assertThat(LIBRARY.equations()).hasSizeGreaterThan(25).containsAll(energies);
    for (String id : LIBRARY.equations()) {
      Equation equation = LIBRARY.equation(id);
      boolean energy = energies.contains(id);
      Equation.Answer answer =
          equation.at(woman, energy ? Map.of("uptake", Quantity.of(6, Unit.MET)) : all);
      assertThat(answer.value()).as(id).isPresent();
      assertThat(answer.interval().isPresent()).as(id).isEqualTo(!energy);
      assertThat(equation.source().isNamed()).as(id).isTrue();
    }
  }
}
