package org.gradus.diagnostic;

import static java.util.Objects.requireNonNull;

import java.util.List;

/**
 * A method was given a value that it cannot take, such as a time that is none, an infinite amount
 * or a number that does not fit its field. Nothing was changed.
 */
public final class ValueRefused extends GradusException {

  private static final long serialVersionUID = 1L;

  /**
   * Refuses a value.
   *
   * @param what what it was given for, such as {@code "a time"}
   * @param value the value, as it was given
   * @param remedy what to give instead
   */
  public ValueRefused(String what, String value, String remedy) {
    super(Code.G623, List.of(what, value, remedy));
    requireNonNull(remedy, "remedy");
    requireNonNull(value, "value");
    requireNonNull(what, "what");
  }
}
