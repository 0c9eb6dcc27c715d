package org.gradus.capacity;

import java.util.Comparator;
import java.util.stream.IntStream;

/** Parts of a whole in whole per cent. */
final class Percents {

  private static final int WHOLE = 100;

  private Percents() {}

  /**
   * Rounds parts so that together they are 100 %: each is rounded down, and what is missing goes to
   * those that lost most (the method of the largest remainder).
   *
   * @param parts from 0 to 1, together 1 but for rounding; or none
   */
  static int[] of(double[] parts) {
    int[] percents = new int[parts.length];
    int left = WHOLE;
    for (int i = 0; i < parts.length; i++) {
      percents[i] = (int) Math.floor(WHOLE * parts[i]);
      left -= percents[i];
    }
    IntStream.range(0, parts.length)
        .boxed()
        .sorted(Comparator.comparingDouble(i -> percents[i] - WHOLE * parts[i]))
        .limit(left)
        .forEach(i -> percents[i]++);
    return percents;
  }
}
