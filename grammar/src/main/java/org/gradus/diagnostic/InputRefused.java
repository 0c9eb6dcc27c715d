package org.gradus.diagnostic;

import static java.util.Objects.requireNonNull;

import java.util.List;

/**
 * Something from outside cannot be read: a folder of files, or the message of a device, a table or
 * a bundle. Nothing was taken from it. What the file system threw is the {@linkplain #getCause
 * cause}.
 */
public non-sealed class InputRefused extends GradusException {

  private static final long serialVersionUID = 1L;

  /**
   * Refuses an input.
   *
   * @param what the input, with its name or its beginning
   * @param reason what is wrong with it, and where
   * @param remedy what to do
   */
  public InputRefused(String what, String reason, String remedy) {
    super(Code.G624, List.of(what, reason, remedy));
    requireNonNull(reason, "reason");
    requireNonNull(remedy, "remedy");
    requireNonNull(what, "what");
  }

  /**
   * Refuses an input that the file system could not read.
   *
   * @param cause what was thrown
   */
  public InputRefused(String what, String reason, String remedy, Throwable cause) {
    this(what, reason, remedy);
    initCause(cause);
  }

  /**
   * Refuses a file that comes with a jar and cannot be read from it.
   *
   * @param name the name of the file in the jar
   * @param cause what was thrown
   */
  public static InputRefused inJar(String name, Exception cause) {
    return new InputRefused(
        "the file " + requireNonNull(name, "name") + " of the library",
        String.valueOf(requireNonNull(cause, "cause").getMessage()),
        "use the jar as it was published",
        cause);
  }
}
