package org.gradus.examples.benchmarks;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/**
 * What is read in a whole standard walk of an invented person of 46 years: everything that is due,
 * and nothing that would ask for a second reading.
 */
final class WalkSheet {

  static final int STAGES = 7;
  static final int MINUTES = 3;
  static final int HOLDS = 2;
  static final int AGE = 46;

  // By stage, and by minute for as long as the stage can be held.
  private final double[][] rates = new double[STAGES][MINUTES + HOLDS];
  private final double[] systolic = new double[STAGES];
  private final double[] ratings = new double[STAGES];

  private WalkSheet(Random random) {
    // Below the ceiling of 85 % of 174 bpm, so that it is never asked for again.
    double rate = 84 + random.nextInt(16);
    double pressure = 126;
    double rating = 6;
    for (int stage = 0; stage < STAGES; stage++) {
      for (int minute = 0; minute < MINUTES + HOLDS; minute++) {
        rate = Math.min(148, rate + 1 + random.nextInt(minute == 0 ? 12 : 7));
        rates[stage][minute] = rate;
      }
      pressure += random.nextInt(12);
      systolic[stage] = 2 * Math.round(pressure / 2);
      rating += random.nextInt(4);
      ratings[stage] = Math.min(20, rating);
    }
  }

  /** Sheets that differ in how fast the rate rises and settles. */
  static List<WalkSheet> some(int number, long seed) {
    Random random = new Random(seed);
    List<WalkSheet> sheets = new ArrayList<>();
    for (int i = 0; i < number; i++) {
      sheets.add(new WalkSheet(random));
    }
    return sheets;
  }

  /** The heart rate of a minute of a stage, from 1. */
  double rate(int stage, int minute) {
    return rates[stage][minute - 1];
  }

  double systolic(int stage) {
    return systolic[stage];
  }

  double rating(int stage) {
    return ratings[stage];
  }
}
