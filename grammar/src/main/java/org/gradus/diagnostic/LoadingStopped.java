package org.gradus.diagnostic;

import static java.util.Objects.requireNonNull;

import java.util.List;

/**
 * Files were not read to the end, because the thread that read them was interrupted. Nothing has
 * changed: a library that was to be extended is as it was. The thread is still interrupted.
 */
public final class LoadingStopped extends GradusException {

  private static final long serialVersionUID = 1L;

  /** Says at which file or protocol it stopped. */
  public LoadingStopped(String at) {
    super(Code.G625, List.of(requireNonNull(at, "at")));
  }
}
