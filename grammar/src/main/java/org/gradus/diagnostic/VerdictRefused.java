package org.gradus.diagnostic;

import static java.util.Objects.requireNonNull;

import java.util.List;

/**
 * A decision cannot be followed or overridden this way, for example to go on after a stop. The
 * session is unchanged and stays usable.
 */
public final class VerdictRefused extends GradusException {

  private static final long serialVersionUID = 1L;

  /** Refuses for this reason; the arguments are what the code's message speaks of. */
  public VerdictRefused(Code code, Object... arguments) {
    super(code, List.of(arguments));
    requireNonNull(arguments, "arguments");
  }
}
