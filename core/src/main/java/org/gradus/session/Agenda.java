package org.gradus.session;

import java.time.Duration;
import java.util.List;

/**
 * What there is to do until the next decision, in order of precedence where times are equal.
 *
 * @param items readings that are still to be taken, or were missed
 * @param questions open questions to ask the person in this stage
 * @param cues what to say or to look for, and when
 */
public record Agenda(List<Item> items, List<String> questions, List<Reminder> cues) {

  /** Nothing to do. */
  public static final Agenda EMPTY = new Agenda(List.of(), List.of(), List.of());

  public Agenda {
    items = List.copyOf(items);
    questions = List.copyOf(questions);
    cues = List.copyOf(cues);
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

  /**
   * Something to say or to look for.
   *
   * @param at when
   * @param say the words
   */
  public record Reminder(Duration at, String say) {}

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
