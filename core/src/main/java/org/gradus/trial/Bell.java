package org.gradus.trial;

import java.util.SplittableRandom;

/** The standard normal distribution, the same on every machine. */
final class Bell {

  private Bell() {}

  // Polar method of Marsaglia and Bray; the second number of each pair is not kept, so that a draw
  // depends on nothing but the random numbers.
  static double draw(SplittableRandom random) {
    while (true) {
      double x = 2 * random.nextDouble() - 1;
      double y = 2 * random.nextDouble() - 1;
      double square = x * x + y * y;
      if (square < 1 && square > 0) {
        return x * StrictMath.sqrt(-2 * StrictMath.log(square) / square);
      }
    }
  }
}
