package org.gradus.diagnostic;

import static java.util.Objects.requireNonNull;

import java.util.List;

/** A text of JSON is not what was to be read from it. The message names the field. */
public final class JsonRefused extends GradusException {

  private static final long serialVersionUID = 1L;

  /**
   * Refuses a text.
   *
   * @param what what was to be read, such as {@code "event"}
   * @param problem the field and what is wrong with it
   */
  public JsonRefused(String what, String problem) {
    super(Code.G622, List.of(what, problem));
    requireNonNull(problem, "problem");
    requireNonNull(what, "what");
  }
}
