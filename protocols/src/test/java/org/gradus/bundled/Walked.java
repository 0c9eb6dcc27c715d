package org.gradus.bundled;

import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.rating;
import static org.gradus.unit.Quantities.kg;

import java.time.Duration;
import org.gradus.capacity.Capacity;
import org.gradus.protocol.Person;
import org.gradus.protocol.Person.Sex;
import org.gradus.protocol.Protocol;
import org.gradus.session.Decision;
import org.gradus.session.Reading;
import org.gradus.session.Session;
import org.gradus.session.Verdict;

/** Standard walks of invented people, gone through to their result. */
final class Walked {

  private Walked() {}

  static Person.Builder person(int age, Sex sex, double mass) {
    return Person.builder().age(age).sex(sex).mass(kg(mass)).cleared(true).lowersHeartRate(false);
  }

  /** A walk through as many stages as steady heart rates are given. */
  static Session walk(Person person, double... rates) {
    return walk(Walks.WALK, person, rates);
  }

  /** The same by another form of the protocol. */
  static Session walk(Protocol protocol, Person person, double... rates) {
    Reading[] readings = new Reading[rates.length];
    for (int i = 0; i < rates.length; i++) {
      readings[i] = heartRate(rates[i]);
    }
    return walk(protocol, person, readings);
  }

  /** The same with readings of any make, told at the end of each second and third minute. */
  static Session walk(Person person, Reading... readings) {
    return walk(Walks.WALK, person, readings);
  }

  static Session walk(Protocol protocol, Person person, Reading... readings) {
    Session session = Walks.ready(protocol, person);
    session.follow(session.decide(Duration.ZERO));
    Duration start = Duration.ZERO;
    for (int i = 0; i < readings.length; i++) {
      session.record(start.plusMinutes(2), readings[i]);
      session.record(start.plusSeconds(165), rating(11 + i, "rpe_6_20"));
      Decision decision = session.record(start.plusMinutes(3), readings[i]);
      start = start.plusMinutes(3);
      boolean last = i == readings.length - 1;
      if (last && !(decision.verdict() instanceof Verdict.Finish)) {
        session.override(start, new Verdict.Finish(), "enough stages");
      } else if (!last && !(decision.verdict() instanceof Verdict.Advance)) {
        session.override(start, new Verdict.Advance("walk_" + (i + 2)), "one more stage");
      } else {
        session.follow(decision);
      }
    }
    return session;
  }

  /**
   * A woman of 46 years, 71 kg, 68 bpm at rest: 116 and 136 bpm at the end of two stages of 16.27
   * and 24.69 mL/kg/min. Her line has 0.4211 mL/kg/min per bpm and comes to 24.69 + 38 x 0.4211 =
   * 40.69 at 174 bpm.
   */
  static Capacity ines() {
    return Capacity.of(walk(person(46, Sex.FEMALE, 71).build(), 116, 136).outcome());
  }
}
