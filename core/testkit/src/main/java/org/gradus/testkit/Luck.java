package org.gradus.testkit;

import java.util.List;
import java.util.random.RandomGenerator;

/** Random choices. */
final class Luck {

  private final RandomGenerator random;

  Luck(RandomGenerator random) {
    this.random = random;
  }

  boolean chance(double share) {
    return random.nextDouble() < share;
  }

  int below(int bound) {
    return random.nextInt(bound);
  }

  double share() {
    return random.nextDouble();
  }

  long seed() {
    return random.nextLong();
  }

  /** A number from a low to a high end, both included. */
  int between(int low, int high) {
    return low + random.nextInt(high - low + 1);
  }

  @SafeVarargs
  final <T> T oneOf(T... choices) {
    return choices[random.nextInt(choices.length)];
  }

  <T> T oneOf(List<T> choices) {
    return choices.get(random.nextInt(choices.size()));
  }
}
