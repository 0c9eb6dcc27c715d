package org.gradus.trial;

import java.time.Duration;
import java.util.List;
import java.util.SplittableRandom;

/**
 * What happens in a virtual person: the uptake a load asks for, the heart rate that follows it with
 * its time constant, pressure and effort that go with it. Heart rate reserve and uptake reserve go
 * hand in hand (Swain DP et al. Med Sci Sports Exerc 1998;30:318-321).
 */
final class VirtualBody {

  private static final int WELL_BELOW = 4;

  private final Traits traits;
  private final Demands demands;
  private final SplittableRandom random;
  private double before;
  private double lastSystolic = Double.POSITIVE_INFINITY;
  private double steady;
  private Duration since = Duration.ZERO;

  VirtualBody(Traits traits, Demands demands, SplittableRandom random) {
    this.traits = traits;
    this.demands = demands;
    this.random = random;
    this.before = of(Trait.RESTING_RATE);
    this.steady = before;
  }

  double of(Trait trait) {
    return traits.of(trait);
  }

  /** Another load is set. */
  void set(List<Load> loads, Duration at) {
    before = trueRate(at);
    since = at;
    double cost = demands.uptake(this, loads) * of(Trait.COST_FACTOR);
    double rest = of(Trait.RESTING_UPTAKE);
    double reserve = (cost - rest) / (of(Trait.CAPACITY) - rest);
    double share = Math.max(0, Math.min(1, reserve));
    steady = of(Trait.RESTING_RATE) + share * (of(Trait.MAX_RATE) - of(Trait.RESTING_RATE));
  }

  /** The heart rate without the day, without noise and without counting. */
  double trueRate(Duration at) {
    double elapsed = at.minus(since).toMillis() / 1000.0;
    return steady + (before - steady) * StrictMath.exp(-elapsed / of(Trait.TIME_CONSTANT));
  }

  /** The share of the heart rate reserve that is used. */
  double effort(Duration at) {
    double rest = of(Trait.RESTING_RATE);
    return (trueRate(at) - rest) / (of(Trait.MAX_RATE) - rest);
  }

  /** The heart rate of this day and this moment. */
  double rate(Duration at) {
    return trueRate(at) * (1 + of(Trait.DAY_SHIFT)) + of(Trait.RATE_NOISE) * Bell.draw(random);
  }

  /** Beats counted in a stretch of time, which begins anywhere between two beats. */
  int beats(Duration at, Duration stretch) {
    double expected = rate(at) * stretch.toMillis() / 60_000.0;
    return (int) Math.floor(expected + random.nextDouble());
  }

  double systolic(Duration at) {
    double noise = of(Trait.PRESSURE_NOISE) * Bell.draw(random);
    lastSystolic = of(Trait.SYSTOLIC) + of(Trait.SYSTOLIC_RISE) * effort(at) + noise;
    return lastSystolic;
  }

  // Heard last of the two, and well below the upper one whatever the ear makes of it.
  double diastolic() {
    double heard = of(Trait.DIASTOLIC) + of(Trait.PRESSURE_NOISE) * Bell.draw(random);
    return Math.min(heard, lastSystolic - WELL_BELOW * of(Trait.PRESSURE_NOISE));
  }

  /** A load that is set: its name and its value in the base unit. */
  record Load(String name, double value) {}
}
