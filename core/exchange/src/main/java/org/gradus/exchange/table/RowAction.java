package org.gradus.exchange.table;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** What a row of a test table says. */
enum RowAction {
  /** The protocol, in the first row. */
  PROTOCOL,
  /** A setting of the protocol. */
  SETTING,
  /** Something known of the person. */
  PERSON,
  /** A reading or an answer. */
  READ,
  /** A sign. */
  REPORT,
  /** A sign is over. */
  WITHDRAW,
  /** A reading is put right. */
  AMEND,
  /** A reading or sign is not to count. */
  REJECT,
  /** The load that was really set. */
  LOAD,
  /** What was to be done was done. */
  DONE,
  /** The test was broken off. */
  ABANDON,
  /** A verdict. */
  READY,
  /** A verdict. */
  DEFER,
  /** A verdict. */
  CONTINUE,
  /** A verdict. */
  HOLD,
  /** A verdict. */
  CHANGE,
  /** A verdict. */
  ADVANCE,
  /** A verdict. */
  FINISH,
  /** A verdict. */
  STOP,
  /** A verdict. */
  END,
  /** A verdict. */
  NOT_RECOVERED,
  /** A component of the load that an overriding verdict gives; below the row of the verdict. */
  WITH;

  String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  static Optional<RowAction> named(String word) {
    return Arrays.stream(values()).filter(action -> action.word().equals(word)).findFirst();
  }

  static String words() {
    return Arrays.stream(values()).map(RowAction::word).collect(Collectors.joining(", "));
  }

  /** Whether it stands above the events. */
  boolean isHead() {
    return this == PROTOCOL || this == SETTING || this == PERSON;
  }
}
