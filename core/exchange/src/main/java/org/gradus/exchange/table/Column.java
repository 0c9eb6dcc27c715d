package org.gradus.exchange.table;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** The columns of a test table. */
enum Column {
  /** The number of the event; rows with the same number belong to one event. */
  NUMBER,
  /** When it was told. */
  AT,
  /** When it was taken or reached, where that was earlier. */
  TAKEN,
  /** What the row says: a word of {@link RowAction}. */
  ACTION,
  /** The signal, question, sign, stage or component. */
  NAME,
  /** A number, a word, or yes or no. */
  VALUE,
  /** The unit of the number. */
  UNIT,
  /** How finely it could be read; of a load that changes, its step. */
  STEP,
  /** The rating scale. */
  SCALE,
  /** The posture of a reading before the test. */
  POSTURE,
  /** How long each step of a load lasts. */
  EVERY,
  /** Where a load that changes leads to. */
  TO,
  /** Until when it is held or continued. */
  UNTIL,
  /** The number of the event that it is about. */
  OF,
  /** Whether a verdict was followed or overridden; empty: as it was. */
  HOW,
  /** Why, in the tester's words. */
  REASON;

  String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  static Optional<Column> named(String word) {
    return Arrays.stream(values()).filter(column -> column.word().equals(word)).findFirst();
  }
}
