package org.gradus.examples.devices;

import java.util.function.Consumer;
import java.util.function.IntConsumer;
import org.gradus.bundled.Bundled;
import org.gradus.capacity.Capacity;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.session.Session;
import org.gradus.unit.Quantities;

/**
 * Runs a whole graded walk with a simulated treadmill, strap and cuff, in an accelerated clock.
 *
 * <pre>
 * mvn -q -pl examples/devices -am -DskipTests package exec:java
 * </pre>
 */
public final class Devices {

  private Devices() {}

  /** Prints what happens, and the result. */
  public static void main(String[] args) {
    Session session = run(System.out::println, (second, room) -> {});
    Capacity.of(session.outcome())
        .headline()
        .ifPresent(best -> System.out.println("result: " + best.vo2max().rounded(1)));
  }

  /** What else happens in the room at a second. */
  interface Incident {
    void at(int second, Room room);
  }

  /** The devices that an incident can happen to. */
  record Room(Session session, SimulatedTreadmill treadmill, SimulatedStrap strap) {}

  static Session run(Consumer<String> log, Incident incident) {
    Library library = Bundled.library();
    // An invented person.
    Person person =
        Person.builder()
            .age(46)
            .sex(Person.Sex.FEMALE)
            .mass(Quantities.kg(71))
            .cleared(true)
            .lowersHeartRate(false)
            .build();
    Session session = Session.open(library.protocol("graded-walk-standard"), person);
    SimulatedTreadmill treadmill = new SimulatedTreadmill();
    SimulatedStrap strap = new SimulatedStrap(library.equation("walking"));
    Room room = new Room(session, treadmill, strap);
    IntConsumer each = second -> incident.at(second, room);
    new TestRoom(session, treadmill, strap, log).run(each);
    return session;
  }
}
