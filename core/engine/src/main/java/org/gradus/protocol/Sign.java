package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import java.util.OptionalInt;
import org.gradus.unit.Type;

/**
 * A sign or symptom that is reported when it occurs. One that was not reported counts as absent.
 *
 * @param name the name rules use: {@code chest_pain}
 * @param prompt the open question to ask, or what to watch for
 * @param asked whether the person is asked, rather than watched
 * @param top the highest grade of a graded sign; empty for one that is there or not
 * @param lasts whether it holds until it is withdrawn, rather than for the stage it is reported in
 */
public record Sign(String name, String prompt, boolean asked, OptionalInt top, boolean lasts) {
  public Sign {
    requireNonNull(name, "name");
    requireNonNull(prompt, "prompt");
    requireNonNull(top, "top");
  }

  /** What a report of it is: a condition, or a number for a graded sign. */
  public Type type() {
    return top.isPresent() ? Type.NUMBER : Type.CONDITION;
  }
}
