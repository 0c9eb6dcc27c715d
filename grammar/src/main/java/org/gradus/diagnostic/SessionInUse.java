package org.gradus.diagnostic;

import static java.util.Objects.requireNonNull;

import java.util.List;

/**
 * An event was told while another one was being told to the same session. It has not happened and
 * can be told again; to whom that happens, threads take no turns.
 */
public final class SessionInUse extends GradusException {

  private static final long serialVersionUID = 1L;

  /** Refuses a thread, naming it and the one that tells an event. */
  public SessionInUse(String thread, String other) {
    super(Code.G605, List.of(thread, other));
    requireNonNull(other, "other");
    requireNonNull(thread, "thread");
  }
}
