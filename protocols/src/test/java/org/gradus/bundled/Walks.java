package org.gradus.bundled;

import static org.gradus.session.Readings.answer;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.resting;
import static org.gradus.session.Times.at;
import static org.gradus.unit.Quantities.hours;
import static org.gradus.unit.Quantities.kg;

import org.gradus.protocol.Person;
import org.gradus.protocol.Person.Sex;
import org.gradus.protocol.Protocol;
import org.gradus.session.Decision;
import org.gradus.session.Ledger;
import org.gradus.session.Session;

/** Invented people at the start of the standard walk. */
final class Walks {

  static final Protocol WALK = Bundled.library().protocol("graded-walk-standard");

  private Walks() {}

  /** A woman of 46 years: 220 - age is 174 bpm, the ceiling 148 bpm. */
  static Person ines() {
    return Person.builder()
        .age(46)
        .sex(Sex.FEMALE)
        .mass(kg(71))
        .cleared(true)
        .lowersHeartRate(false)
        .build();
  }

  /** A man of 64 years: 220 - age is 156 bpm, the ceiling 133 bpm. */
  static Person otto() {
    return Person.builder()
        .age(64)
        .sex(Sex.MALE)
        .mass(kg(82))
        .cleared(true)
        .lowersHeartRate(false)
        .build();
  }

  /** A session in which everything asked before the test has been told. */
  static Session ready(Person person) {
    return ready(WALK, person);
  }

  static Session ready(Protocol protocol, Person person) {
    return told(Session.open(protocol, person));
  }

  /** A session of Ines whose first stage began at 0:00, kept by a ledger. */
  static Session begun(Ledger ledger) {
    Session session = told(Session.open(WALK, ines(), ledger));
    session.follow(session.decide(at("0:00")));
    return session;
  }

  private static Session told(Session session) {
    session.record(
        at("0:00"),
        answer("unwell_today", false),
        answer("recent_event", false),
        answer("pregnant", false),
        answer("since_meal", hours(4)),
        answer("since_stimulant", hours(5)),
        resting(heartRate(68)),
        resting(pressure(122, 78)));
    return session;
  }

  /** A session whose first stage began at 0:00. */
  static Session walking(Person person) {
    Session session = ready(person);
    session.follow(session.decide(at("0:00")));
    return session;
  }

  /** A session whose first stage began at 0:00, with two counts a minute apart. */
  static Session walking(Person person, double second, double third) {
    Session session = walking(person);
    session.record(at("2:00"), heartRate(second));
    session.record(at("3:00"), heartRate(third));
    return session;
  }

  static String verdict(Decision decision) {
    return decision.verdict().word() + decision.because().map(why -> " " + why.rule()).orElse("");
  }
}
