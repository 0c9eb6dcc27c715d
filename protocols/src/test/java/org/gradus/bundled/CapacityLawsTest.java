package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.capacity.Interval;
import org.gradus.diagnostic.SourceFile;
import org.gradus.knowledge.Exercise;
import org.gradus.knowledge.Given;
import org.gradus.knowledge.IntensityBands;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.protocol.Person.Sex;
import org.gradus.protocol.Protocol;
import org.gradus.session.Session;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** What holds for every result. */
class CapacityLawsTest {

  private static final IntensityBands BANDS = Bundled.library().bands("bands-2011");

  private static Capacity walked(Protocol protocol, int age, double first, double second) {
    Person person = Walked.person(age, Sex.MALE, 80).build();
    return Capacity.of(Walked.walk(protocol, person, first, second).outcome());
  }

  private static Capacity walked(int age, double first, double second) {
    return walked(Walks.WALK, age, first, second);
  }

  private static double vo2max(Capacity capacity, String estimate) {
    Estimate found = capacity.estimate(estimate).orElseThrow();
    Assume.that(found instanceof Estimate.Available);
    return ((Estimate.Available) found).vo2max().amount();
  }

  @Property(tries = 200, seed = "20261130")
  void aFasterHeartAtTheSameLoadsGivesALowerEstimate(
      @ForAll @IntRange(min = 18, max = 45) int age,
      @ForAll @IntRange(min = 111, max = 118) int first,
      @ForAll @IntRange(min = 10, max = 22) int apart,
      @ForAll @IntRange(min = 1, max = 4) int faster) {
    Capacity slow = walked(age, first, first + apart);
    Capacity fast = walked(age, first + faster, first + apart + faster);
    assertThat(vo2max(fast, "single_stage")).isLessThan(vo2max(slow, "single_stage"));
    assertThat(vo2max(fast, "stages_line")).isLessThan(vo2max(slow, "stages_line"));
  }

  @Property(tries = 30, seed = "20261130")
  void anyLargerSpreadWidensTheInterval(
      @ForAll @IntRange(min = 0, max = 5) int which,
      @ForAll @DoubleRange(min = 1.1, max = 3) double times) {
    List<String> written =
        List.of(
            "sd: 2.35 %",
            "sd: 2.5 bpm",
            "sd: 12.4 bpm",
            "sd: 7 %",
            "sd: 4 mL/kg/min",
            "rest_spread:\n    value: 8 bpm");
    String sd = written.get(which);
    double amount = Double.parseDouble(sd.replaceAll("[^0-9.]", ""));
    String unit = sd.substring(sd.lastIndexOf(' '));
    String larger =
        sd.substring(0, sd.lastIndexOf(": ") + 2)
            + Quantity.plain(Math.min(amount * times, which == 5 ? 20 : Double.MAX_VALUE))
            + unit;
    List<SourceFile> files = new ArrayList<>();
    for (SourceFile file : Bundled.files()) {
      files.add(SourceFile.of(file.name(), file.text().replace(sd, larger)));
    }
    Protocol changed = Library.of(files).protocol("graded-walk-standard");
    assertThat(sd(walked(changed, 40, 112, 140)).amount())
        .isGreaterThan(sd(walked(40, 112, 140)).amount());
  }

  private static Quantity sd(Capacity capacity) {
    return capacity
        .headline()
        .flatMap(Estimate.Available::interval)
        .map(Interval::sd)
        .orElseThrow();
  }

  @Property(tries = 100, seed = "20261130")
  void theEstimateLiesInsideItsInterval(
      @ForAll @IntRange(min = 18, max = 60) int age,
      @ForAll @IntRange(min = 90, max = 125) int first,
      @ForAll @IntRange(min = -5, max = 40) int apart) {
    for (Estimate estimate : walked(age, first, first + apart).estimates()) {
      if (estimate instanceof Estimate.Available available) {
        available
            .interval()
            .ifPresent(
                around -> {
                  assertThat(available.vo2max().amount())
                      .isBetween(around.low().amount(), around.high().amount());
                  assertThat(around.sd().amount())
                      .isGreaterThanOrEqualTo(around.propagated().amount());
                });
      }
    }
  }

  // Of one equation, that is: the forms per watt and per kgm/min are two.
  @Property(tries = 100, seed = "20261130")
  void theUnitOfALoadChangesNothing(
      @ForAll @DoubleRange(min = 1.9, max = 3.7) double mph,
      @ForAll @DoubleRange(min = 50, max = 200) double watts) {
    Given person = Walked.ines().facts().given();
    Exercise walk = BANDS.exercises().get(0);
    Quantity speed = Quantity.of(mph, Unit.MPH);
    Given level = person.with("grade", 0);
    for (Unit unit : List.of(Unit.KMH, Unit.METRE_PER_MINUTE, Unit.METRE_PER_SECOND)) {
      Quantity same = Quantity.of(speed.in(unit), unit);
      assertThat(walk.cost().value(level.with("speed", same)))
          .isEqualTo(walk.cost().value(level.with("speed", speed)), within(1e-9));
    }
    Exercise cycle = BANDS.exercises().get(3);
    Quantity power = Quantity.of(watts, Unit.WATT);
    Quantity same = Quantity.of(power.in(Unit.KGM_PER_MINUTE), Unit.KGM_PER_MINUTE);
    assertThat(cycle.cost().value(person.with("power", same)))
        .isEqualTo(cycle.cost().value(person.with("power", power)), within(1e-9));
  }

  @Property(tries = 50, seed = "20261130")
  void aMassInPoundsGivesTheSameAnswerAndTheSamePlan(
      @ForAll @DoubleRange(min = 45, max = 120) double kilograms) {
    Quantity mass = Quantity.of(kilograms, Unit.KILOGRAM);
    Quantity pounds = Quantity.of(mass.in(Unit.POUND), Unit.POUND);
    Session inKilograms = Walked.walk(Walked.person(40, Sex.MALE, 80).mass(mass).build(), 112, 136);
    Session inPounds = Walked.walk(Walked.person(40, Sex.MALE, 80).mass(pounds).build(), 112, 136);
    assertThat(vo2max(Capacity.of(inPounds.outcome()), "stages_line"))
        .isEqualTo(vo2max(Capacity.of(inKilograms.outcome()), "stages_line"), within(1e-9));
    assertThat(plan(inPounds)).isEqualTo(plan(inKilograms));
  }

  private static List<String> plan(Session session) {
    return org.gradus.training.Training.plan(Capacity.of(session.outcome()), BANDS).plans().stream()
        .flatMap(band -> band.energy().stream())
        .map(energy -> energy.rounded(4).toString())
        .toList();
  }
}
