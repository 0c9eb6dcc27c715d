package org.gradus.session;

import java.time.Duration;
import org.gradus.rule.plan.Frame;
import org.jspecify.annotations.Nullable;

/**
 * The state of a test at one moment, after what time alone has changed. What is known then is put
 * together when somebody first asks. For one thread.
 */
final class StateAt {

  private final TestState state;
  private final Duration time;
  private @Nullable Frame latest;

  private StateAt(TestState state, Duration time, @Nullable Frame latest) {
    this.state = state;
    this.time = time;
    this.latest = latest;
  }

  /** The state at a time, before anything is told then. */
  static StateAt of(TestState state, Duration time) {
    return TimeAdvance.at(after(state), time);
  }

  /** The state right after its last event. */
  static StateAt after(TestState state) {
    return new StateAt(state, state.now, null);
  }

  /** The same state at a later time, as if time alone had changed nothing. */
  StateAt later(Duration at) {
    return at.equals(time) ? this : new StateAt(state, at, null);
  }

  /** The same moment once rules have been looked at, which changes nothing of what is known. */
  StateAt with(TestState looked) {
    return new StateAt(looked, time, latest);
  }

  TestState state() {
    return state;
  }

  /** How many events it rests on: the number of the last one. */
  int number() {
    return state.events.size();
  }

  Duration time() {
    return time;
  }

  /** What is known, by the latest readings. */
  Frame latest() {
    Frame found = latest;
    if (found == null) {
      found = FrameFiller.latest(state, time);
      latest = found;
    }
    return found;
  }
}
