package org.gradus.examples.benchmarks;

import static org.gradus.session.Readings.answer;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.pulse;
import static org.gradus.session.Readings.rating;
import static org.gradus.session.Readings.resting;
import static org.gradus.session.Times.at;
import static org.gradus.session.Times.seconds;
import static org.gradus.unit.Quantities.kg;

import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.session.Decision;
import org.gradus.session.Session;

/** An invented person on the standard walk. */
final class StandardWalk {

  private StandardWalk() {}

  /** A session that is ready to begin. */
  static Session ready(Protocol walk) {
    Person person =
        Person.builder()
            .age(46)
            .sex(Person.Sex.FEMALE)
            .mass(kg(71))
            .cleared(true)
            .lowersHeartRate(false)
            .build();
    Session session = Session.open(walk, person);
    session.record(
        at("0:00"),
        resting(heartRate(68)),
        resting(pressure(122, 78)),
        answer("unwell_today", false),
        answer("recent_event", false),
        answer("pregnant", false));
    return session;
  }

  /** A session in its second stage, with a dozen readings taken in the two. */
  static Session live(Protocol walk) {
    Session session = ready(walk);
    session.follow(session.decide(at("0:00")));
    session.record(at("1:00"), pulse(25, seconds(15)));
    session.record(at("2:00"), pulse(26, seconds(15)));
    session.record(at("2:20"), pressure(138, 80));
    session.record(at("2:45"), rating(10, "rpe_6_20"));
    Decision end = session.record(at("3:00"), pulse(27, seconds(15)));
    session.follow(end);
    session.record(at("4:00"), pulse(29, seconds(15)));
    session.record(at("5:00"), pulse(29, seconds(15)));
    session.record(at("5:20"), pressure(146, 80));
    session.record(at("5:45"), rating(12, "rpe_6_20"));
    return session;
  }
}
