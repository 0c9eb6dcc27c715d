package org.gradus.trial;

import java.util.SplittableRandom;

/** The standard normal distribution, the same on every machine. */
final class Bell {

  private Bell() {}

  // Polar method: Marsaglia G, Bray TA. SIAM Rev 1964;6(3):260-264. The second number of each pair
  // is dropped, so that a draw depends on the random numbers alone.
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
