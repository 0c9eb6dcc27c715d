package org.gradus.session;

import java.time.Duration;
import java.util.List;

/**
 * What there is to do until the next decision, in order of precedence where times are equal.
 *
 * @param items readings that are still to be taken, or were missed
 * @param questions questions about signs to ask the person again and again, in stages and in
 *     recovery
 */
public record Agenda(List<Item> items, List<String> questions) {

  /** Nothing to do. */
  public static final Agenda EMPTY = new Agenda(List.of(), List.of());

  public Agenda {
    items = List.copyOf(items);
    questions = List.copyOf(questions);
  }

  /**
   * A reading to take.
   *
   * @param signals what is read together
   * @param begin when to begin with it
   * @param due the time it counts for
   * @param state whether it is still to come
   */
  public record Item(List<String> signals, Duration begin, Duration due, State state) {
    public Item {
      signals = List.copyOf(signals);
    }
  }

  /** How a reading stands. */
  public enum State {
    /** It is still to come. */
    AHEAD,
    /** It is due now. */
    DUE,
    /** Its time has passed without it. */
    MISSED
  }
}
