package org.gradus.examples.benchmarks;

/** The answers of all rules of a pass in one number, two bits for each: no, yes or unknown. */
final class Answers {

  static final long NO = 0;
  static final long YES = 1;
  static final long UNKNOWN = 2;

  private Answers() {}

  static long and(long others, boolean answer) {
    return others << 2 | (answer ? YES : NO);
  }

  static long and(long others, long answer) {
    return others << 2 | answer;
  }

  /**
   * Compares all answers over all moments.
   *
   * @throws IllegalStateException when two differ
   */
  static void refuseDifferent(int moments, Evaluator expected, Evaluator other) {
    for (int i = 0; i < moments; i++) {
      long wanted = expected.pass(i);
      long given = other.pass(i);
      if (wanted != given) {
        throw new IllegalStateException(
            other.getClass().getSimpleName()
                + " answers otherwise at moment "
                + i
                + ": "
                + Long.toString(given, 4)
                + " instead of "
                + Long.toString(wanted, 4));
      }
    }
  }
}
