package org.gradus.diagnostic;

import static java.util.Objects.requireNonNull;

import java.util.List;

/**
 * A record cannot be read or replayed: a line says what no record says, it tells what cannot have
 * happened, or its protocol means something else in the library. The message names the place in the
 * record, or the items that differ, and the remedy; nothing was changed.
 */
public final class RecordRefused extends GradusException {

  private static final long serialVersionUID = 1L;

  private final transient List<String> differences;

  /** Refuses for this reason; the arguments are what the code's message speaks of. */
  public RecordRefused(Code code, Object... arguments) {
    this(code, List.of(), arguments);
  }

  /**
   * Refuses because a protocol means something else.
   *
   * @param differences each item that differs; the message may name fewer
   */
  public RecordRefused(Code code, List<String> differences, Object... arguments) {
    super(code, List.of(requireNonNull(arguments, "arguments")));
    this.differences = List.copyOf(requireNonNull(differences, "differences"));
  }

  /**
   * Each item of the protocol that means something else in the library than in the record (G608),
   * sorted: {@code walk_2.grade}. Empty where the record was refused for something else.
   */
  public List<String> differences() {
    return differences;
  }

  /**
   * Refuses because of something that was refused within.
   *
   * @param cause what the event was refused with
   */
  public RecordRefused(Code code, GradusException cause, Object... arguments) {
    this(code, arguments);
    initCause(cause);
  }
}
