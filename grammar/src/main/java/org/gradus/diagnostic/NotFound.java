package org.gradus.diagnostic;

import static java.util.Objects.requireNonNull;

import java.util.List;

/** The library holds nothing by this name. */
public final class NotFound extends GradusException {

  private static final long serialVersionUID = 1L;

  /** Refuses for this reason; the arguments are what the code's message speaks of. */
  public NotFound(Code code, Object... arguments) {
    super(code, List.of(arguments));
    requireNonNull(arguments, "arguments");
  }
}
