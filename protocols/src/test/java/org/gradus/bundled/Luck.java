package org.gradus.bundled;

import static org.gradus.session.Readings.chosen;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.measured;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.pulse;
import static org.gradus.session.Readings.rating;
import static org.gradus.session.Readings.resting;
import static org.gradus.session.Times.seconds;
import static org.gradus.unit.Quantities.bpm;
import static org.gradus.unit.Quantities.hours;
import static org.gradus.unit.Quantities.kg;
import static org.gradus.unit.Quantities.mmHg;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.gradus.protocol.Person;
import org.gradus.protocol.Person.Sex;
import org.gradus.protocol.Protocol;
import org.gradus.session.Reading;
import org.gradus.session.Readings;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** Random protocols, people and readings, mostly such as occur and often near a limit. */
final class Luck {

  // Making a protocol anew takes longer than a whole random test, so there are some to choose from.
  private static final List<Protocol> PROTOCOLS =
      Stream.iterate(1, seed -> seed + 1)
          .limit(12)
          .map(seed -> protocol(new Random(seed)))
          .toList();

  private static final List<String> SIGNS =
      List.of(
          "chest_pain",
          "light_headed",
          "pale_or_cold",
          "irregular_pulse",
          "asks_to_stop",
          "equipment_fault",
          "handrail");

  private final Random random;
  private double pulse = 95;

  Luck(Random random) {
    this.random = random;
  }

  private static Protocol protocol(Random random) {
    return Walks.WALK
        .with("steady_band", bpm(4 + random.nextInt(3)))
        .with("usable_from", bpm(100 + random.nextInt(16)))
        .with("finish_from", bpm(120 + random.nextInt(31)))
        .with("below_ceiling", bpm(5 + random.nextInt(21)))
        .with("ceiling", Quantity.of(70 + random.nextInt(16), Unit.PERCENT))
        .with("systolic_limit", mmHg(random.nextBoolean() ? 250 : 220))
        .with("diastolic_limit", mmHg(random.nextBoolean() ? 115 : 120));
  }

  boolean chance(double share) {
    return random.nextDouble() < share;
  }

  int below(int bound) {
    return random.nextInt(bound);
  }

  <T> T oneOf(List<T> choices) {
    return choices.get(random.nextInt(choices.size()));
  }

  Protocol protocol() {
    return oneOf(PROTOCOLS);
  }

  Person person() {
    Person.Builder person =
        Person.builder()
            .age(chance(0.02) ? 70 : 18 + below(48))
            .sex(chance(0.5) ? Sex.FEMALE : Sex.MALE)
            .mass(kg(45 + below(70)))
            .cleared(!chance(0.02));
    if (!chance(0.02)) {
      person.lowersHeartRate(chance(0.03));
    }
    if (chance(0.2)) {
      person.measuredMaxHeartRate(bpm(150 + below(50)));
    }
    return person.build();
  }

  Reading[] beforeTheTest() {
    return new Reading[] {
      Readings.answer("unwell_today", chance(0.02)),
      Readings.answer("recent_event", chance(0.01)),
      Readings.answer("pregnant", chance(0.01)),
      Readings.answer("since_meal", hours(1 + below(6))),
      Readings.answer("since_stimulant", hours(1 + below(6))),
      resting(heartRate(60 + below(40))),
      resting(pressure(110 + below(72), 60 + below(41)))
    };
  }

  /** A heart rate that drifts upwards; counted as a pulse at times, and once in a while far off. */
  Reading rate() {
    pulse = Math.max(60, Math.min(185, pulse + random.nextInt(13) - 4));
    double shown = chance(0.03) ? 60 + below(130) : pulse;
    if (chance(0.3)) {
      int stretch = chance(0.5) ? 15 : 10;
      return pulse((int) Math.round(shown * stretch / 60), seconds(stretch));
    }
    return heartRate(shown);
  }

  /** A rate that stays where it is, up to a few beats. */
  Reading steadyRate() {
    pulse += random.nextInt(5) - 2;
    return heartRate(pulse);
  }

  Reading cuff() {
    // It rises with the load, as it should, but for some.
    double systolic = chance(0.06) ? 216 + below(40) : 100 + pulse / 3 + below(14);
    double diastolic = chance(0.05) ? 110 + below(14) : 60 + below(40);
    return pressure(Math.max(systolic, diastolic + 10), diastolic);
  }

  Reading effort() {
    return rating(chance(0.1) ? 16 + below(5) : 8 + below(7), "rpe_6_20");
  }

  Reading gait() {
    return chosen("gait", chance(0.8) ? "walking" : "running");
  }

  /** Readings that belong together, most often only a rate. */
  List<Reading> readings() {
    List<Reading> readings = new ArrayList<>();
    if (chance(0.75)) {
      readings.add(rate());
    }
    if (chance(0.25)) {
      readings.add(cuff());
    }
    if (chance(0.2)) {
      readings.add(effort());
    }
    if (chance(0.1)) {
      readings.add(gait());
    }
    return readings.stream().flatMap(reading -> reading.parts().stream()).toList();
  }

  /** A reading that is refused. */
  Reading slip() {
    return oneOf(
        List.<Reading>of(
            heartRate(700),
            heartRate(-3),
            measured("heart_rate", mmHg(100)),
            measured("lactate", Quantity.of(3, Unit.ONE)),
            rating(13.5, "rpe_6_20"),
            rating(5, "cr_10"),
            chosen("gait", "hopping"),
            Readings.answer("unwell_today", true),
            Readings.answer("chest_pain", true),
            resting(heartRate(70)),
            measured("systolic", mmHg(700))));
  }

  String sign() {
    return oneOf(SIGNS);
  }
}
