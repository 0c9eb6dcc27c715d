package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.gradus.session.Times.at;

import org.gradus.capacity.Capacity;
import org.gradus.capacity.Result;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.session.Readings;
import org.gradus.session.Session;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/**
 * What is expected of a walk of six minutes. The coefficients of both equations are from memory:
 * Enright PL, Sherrill DL. Am J Respir Crit Care Med 1998;158:1384-1387; Troosters T et al. Eur
 * Respir J 1999;14:270-274. The sums are worked by hand.
 */
class SixMinuteWalkTest {

  private static final Protocol WALK = Bundled.library().protocol("walk-6min");

  private static Result walked(Protocol protocol, Person.Sex sex, double cm, double kg) {
    Person person =
        Person.builder()
            .age(60)
            .sex(sex)
            .height(Quantity.of(cm, Unit.CENTIMETRE))
            .mass(Quantity.of(kg, Unit.KILOGRAM))
            .cleared(true)
            .lowersHeartRate(false)
            .build();
    Session session = Session.open(protocol, person);
    session.record(
        at("0:00"),
        Readings.resting(Readings.heartRate(70)),
        Readings.resting(Readings.pressure(124, 78)),
        Readings.resting(Readings.measured("saturation", Quantity.of(97, Unit.PERCENT))),
        Readings.answer("unwell_today", false),
        Readings.answer("recent_event", false),
        Readings.answer("pregnant", false));
    session.follow(session.decide(at("0:00")));
    session.record(at("6:00"), Readings.measured("walked", Quantity.of(482, Unit.METRE)));
    session.follow(session.decide(at("6:00")));
    return Capacity.of(session.outcome()).result("walked_distance").orElseThrow();
  }

  private static double expected(Result result) {
    return result.reference().orElseThrow().value().in(Unit.METRE);
  }

  private static double lower(Result result) {
    return result.reference().orElseThrow().lower().orElseThrow().in(Unit.METRE);
  }

  // 2.11 x 165 - 2.29 x 70 - 5.78 x 60 + 667 = 508.05; 7.57 x 175 - 5.02 x 60 - 1.76 x 80 - 309 =
  // 573.75; the lower limits lie 139 and 153 m below.
  @Test
  void adultsOf1998() {
    Result woman = walked(WALK, Person.Sex.FEMALE, 165, 70);
    assertThat(expected(woman)).isCloseTo(508.05, within(0.01));
    assertThat(lower(woman)).isCloseTo(369.05, within(0.01));
    assertThat(woman.words()).isEqualTo("482 m, 95 % of predicted; lower limit 369 m");
    Result man = walked(WALK, Person.Sex.MALE, 175, 80);
    assertThat(expected(man)).isCloseTo(573.75, within(0.01));
    assertThat(lower(man)).isCloseTo(420.75, within(0.01));
  }

  // 218 + 5.14 x 165 - 5.32 x 60 - 1.80 x 70 = 620.9; 218 + 5.14 x 175 - 5.32 x 60 - 1.80 x 80 +
  // 51.31 = 705.61; the lower limit lies 1.645 x 56 = 92 m below.
  @Test
  void healthyPeopleOf1999() {
    Protocol other = WALK.with("expected_by", "healthy_1999");
    Result woman = walked(other, Person.Sex.FEMALE, 165, 70);
    assertThat(expected(woman)).isCloseTo(620.9, within(0.01));
    assertThat(lower(woman)).isCloseTo(528.9, within(0.01));
    assertThat(expected(walked(other, Person.Sex.MALE, 175, 80))).isCloseTo(705.61, within(0.01));
  }
}
