package org.gradus.bundled;

import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.rating;
import static org.gradus.unit.Quantities.kg;

import java.time.Duration;
import java.util.List;
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
    return walk(protocol, person, readings(rates));
  }

  private static Reading[] readings(double... rates) {
    Reading[] readings = new Reading[rates.length];
    for (int i = 0; i < rates.length; i++) {
      readings[i] = heartRate(rates[i]);
    }
    return readings;
  }

  /** The same with readings of any make, told at the end of each second and third minute. */
  static Session walk(Person person, Reading... readings) {
    return walk(Walks.WALK, person, readings);
  }

  static Session walk(Protocol protocol, Person person, Reading... readings) {
    return walk(Walks.ready(protocol, person), readings);
  }

  /** The same of a person whose pulse and pressure at rest were not taken. */
  static Session withoutResting(Person person, double... rates) {
    return walk(Session.open(Walks.WALK, person), readings(rates));
  }

  /** A walk that the ceiling ends in its first stage, by a rate told twice at two minutes. */
  static Session endedByCeiling(Person person, double rate) {
    Session session = Walks.ready(person);
    session.follow(session.decide(Duration.ZERO));
    session.record(Duration.ofMinutes(2), heartRate(rate));
    session.follow(session.record(Duration.ofSeconds(135), heartRate(rate)));
    return session;
  }

  private static Session walk(Session session, Reading... readings) {
    Decision ready = session.decide(Duration.ZERO);
    if (ready.verdict() instanceof Verdict.Ready) {
      session.follow(ready);
    } else {
      session.override(Duration.ZERO, new Verdict.Ready("walk_1", List.of()), "begin without it");
    }
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
   * and 24.69 mL/kg/min. Her line through rest has its weighted middle at 19.68 mL/kg/min and
   * 123.27 bpm and rises by 2.8265 bpm per mL/kg/min: 19.68 + (174 - 123.27) / 2.8265 = 37.63. That
   * through the stages alone comes to 40.69.
   */
  static Capacity ines() {
    return Capacity.of(walk(person(46, Sex.FEMALE, 71).build(), 116, 136).outcome());
  }
}
