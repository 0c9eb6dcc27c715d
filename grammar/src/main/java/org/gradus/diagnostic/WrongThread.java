package org.gradus.diagnostic;

import java.util.List;

/** A session was used from a second thread. A session belongs to the thread that opened it. */
public final class WrongThread extends GradusException {

  private static final long serialVersionUID = 1L;

  /** Refuses a thread, naming it and the owner. */
  public WrongThread(String thread, String owner) {
    super(Code.G605, List.of(thread, owner));
  }
}
