package org.gradus.session;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.List;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;

/**
 * An event of a test that is told again, between what was recommended just before it and what was
 * answered to it, both as they were then.
 *
 * @param number the number of the event, from 1
 * @param event what was told or done
 * @param before what was recommended at its moment, before it
 * @param answer what was recommended at its moment, after it
 */
public record Retold(int number, Event event, Decision before, Decision answer) {
  public Retold {
    requireNonNull(answer, "answer");
    requireNonNull(before, "before");
    requireNonNull(event, "event");
  }

  /**
   * A test told again event by event, in one pass.
   *
   * @param events in order, as {@link Session#events} gave them
   * @throws org.gradus.diagnostic.RecordRefused when one of these events cannot have happened with
   *     this protocol
   */
  public static List<Retold> of(Protocol protocol, Person person, List<Event> events) {
    requireNonNull(person, "person");
    List<Retold> retold = new ArrayList<>();
    Replay.of(
        protocol,
        person,
        events,
        (before, event, after) ->
            retold.add(
                new Retold(
                    after.number(), event, Judge.decide(before, event.at()), Judge.at(after))));
    return List.copyOf(retold);
  }
}
