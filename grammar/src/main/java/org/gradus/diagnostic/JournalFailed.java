package org.gradus.diagnostic;

import static java.util.Objects.requireNonNull;

import java.util.List;

/**
 * A journal could not be created, opened or written. An event that could not be written was not
 * applied: the session is as it was. The code tells the reasons apart:
 *
 * <ul>
 *   <li>{@link Code#G610}: another session holds the journal, in this process or another
 *   <li>{@link Code#G611}: the journal is closed
 *   <li>{@link Code#G612}: no space is left
 *   <li>{@link Code#G613}: there is no such folder or file
 *   <li>{@link Code#G614}: a new journal would replace a file
 *   <li>{@link Code#G607}: anything else
 * </ul>
 *
 * <p>What the file system threw is the {@linkplain #getCause cause}.
 */
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
    requireNonNull(what, "what");
    requireNonNull(where, "where");
  }

  /**
   * Refuses an event that could not be kept.
   *
   * @param code why
   * @param where the journal
   * @param what what went wrong
   * @param cause what was thrown
   */
  public JournalFailed(Code code, String where, String what, Throwable cause) {
    this(code, where, what);
    initCause(cause);
  }
}
