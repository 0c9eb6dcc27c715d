package org.gradus.training;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import org.gradus.knowledge.Exercise;
import org.gradus.unit.Kind;
import org.gradus.words.Joined;
import org.gradus.words.Message;

/** How to set an ergometer for a band of intensity. */
public sealed interface LoadPlan {

  /** The way to exercise. */
  Exercise exercise();

  /** The load or why there is none, rounded to what can be set, to be said in any language. */
  Message message();

  /** The same in English. */
  default String words() {
    return message().toString();
  }

  /**
   * A load that can be set.
   *
   * @param exercise the way to exercise
   * @param load from the load at the start of the band to the one at its end, in base units
   * @param remark where not all of the band can be reached
   */
  record Reachable(Exercise exercise, Range load, Optional<Message> remark) implements LoadPlan {
    public Reachable {
      requireNonNull(exercise, "exercise");
      requireNonNull(load, "load");
      requireNonNull(remark, "remark");
    }

    @Override
    public Message message() {
      Message set = setting().message();
      return remark.map(more -> Message.of(Joined.BRACKETS, set, more)).orElse(set);
    }

    /** The load, rounded to what can be set: grades to a tenth, all else to a whole one. */
    public Range setting() {
      return load.rounded(exercise.between().low().kind() == Kind.NUMBER ? 1 : 0);
    }
  }

  /**
   * A band that cannot be reached in this way.
   *
   * @param exercise the way to exercise
   * @param reason why not, with the uptakes that can be reached
   */
  record NotReachable(Exercise exercise, Message reason) implements LoadPlan {
    public NotReachable {
      requireNonNull(exercise, "exercise");
      requireNonNull(reason, "reason");
    }

    @Override
    public Message message() {
      return reason;
    }
  }
}
