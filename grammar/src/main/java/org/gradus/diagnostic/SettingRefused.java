package org.gradus.diagnostic;

import static java.util.Objects.requireNonNull;

import java.util.List;

/** A setting was given a value that the file does not allow. The protocol is unchanged. */
public final class SettingRefused extends GradusException {

  private static final long serialVersionUID = 1L;

  /** Refuses for this reason; the arguments are what the code's message speaks of. */
  public SettingRefused(Code code, Object... arguments) {
    super(code, List.of(arguments));
    requireNonNull(arguments, "arguments");
  }
}
