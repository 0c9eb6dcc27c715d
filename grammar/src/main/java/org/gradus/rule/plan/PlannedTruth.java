package org.gradus.rule.plan;

import org.gradus.rule.answer.Truth;

/**
 * How planned nodes keep a truth: as a number of which {@code and} takes the lower, {@code or} the
 * higher, and {@code not} the negative.
 */
final class PlannedTruth {

  static final byte YES = 1;
  static final byte OPEN = 0;
  static final byte NO = -1;

  // Looked up and not branched on: which of them it will be cannot be foreseen.
  private static final Truth[] BY_NUMBER = {Truth.FALSE, Truth.UNKNOWN, Truth.TRUE};

  private PlannedTruth() {}

  static Truth truth(byte planned) {
    return BY_NUMBER[planned - NO];
  }

  static byte of(boolean known) {
    return known ? YES : NO;
  }
}
