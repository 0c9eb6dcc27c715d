package org.gradus.diagnostic;

import java.util.List;

/** An event could not be kept, and was therefore not applied. The session is as it was. */
public final class JournalFailed extends GradusException {

  private static final long serialVersionUID = 1L;

  /**
   * Refuses an event that could not be kept.
   *
   * @param code why
   * @param where the journal
   * @param what what went wrong
   */
  public JournalFailed(Code code, String where, String what) {
    super(code, List.of(where, what));
  }
}
