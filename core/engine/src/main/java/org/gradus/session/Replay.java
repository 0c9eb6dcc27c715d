package org.gradus.session;

import java.util.List;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.diagnostic.RecordRefused;
import org.gradus.diagnostic.VerdictRefused;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;

/**
 * Replays a test event by event, in the order in which it was told. Each event is checked against
 * the state at that time: a later amendment does not invalidate what was followed before it.
 */
final class Replay {

  /** Looks on while a test is told again. */
  @FunctionalInterface
  interface Step {

    /** Looks at an event between the state before it and the moment after it. */
    void told(TestState before, Event event, StateAt after);
  }

  private Replay() {}

  /**
   * The state that events lead to. Each must be one that a live session accepts.
   *
   * @throws RecordRefused when one of them cannot have happened, with its number
   * @throws ReadingRefused when something the protocol needs to know of the person is missing
   */
  static TestState of(Protocol protocol, Person person, List<Event> events, Step step) {
    TestState state = TestState.open(protocol, person);
    for (Event event : events) {
      StateAt next;
      try {
        next = EventApplier.apply(state, event);
      } catch (ReadingRefused | VerdictRefused refused) {
        throw new RecordRefused(
            Code.G620,
            refused,
            Integer.toString(state.events.size() + 1),
            protocol.toString(),
            String.valueOf(refused.getMessage()));
      }
      step.told(state, event, next);
      state = next.state();
    }
    return state;
  }
}
