package org.gradus.trial;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import org.gradus.rule.plan.Frame;

/**
 * What happens in a virtual person: the uptake a load asks for, the heart rate that follows it with
 * its time constant, pressure and effort that go with it. Heart rate reserve and uptake reserve go
 * hand in hand (Swain DP et al. Med Sci Sports Exerc 1998;30:318-321).
 */
final class VirtualBody {

  private static final int WELL_BELOW = 4;

  private final Traits traits;
  private final Demands demands;
  private final Physiology physiology;
  private final SplittableRandom random;
  private double before;
  private double lastSystolic = Double.POSITIVE_INFINITY;
  private double steady;
  private Duration since = Duration.ZERO;
  private Optional<Duration> tooMuchSince = Optional.empty();

  VirtualBody(Traits traits, Demands demands, Physiology physiology, SplittableRandom random) {
    this.physiology = physiology;
    this.traits = traits;
    this.demands = demands;
    this.random = random;
    this.before = of(Trait.RESTING_RATE);
    this.steady = before;
  }

  double of(Trait trait) {
    return traits.of(trait);
  }

  /**
   * Another load is set.
   *
   * @param works whether the person works, be it at a pace of their own
   */
  void set(List<Load> loads, boolean works, Duration at) {
    before = trueRate(at);
    since = at;
    double cost = demands.uptake(this, loads, works) * of(Trait.COST_FACTOR);
    tooMuchSince =
        cost > of(Trait.CAPACITY) ? tooMuchSince.or(() -> Optional.of(at)) : Optional.empty();
    double rest = of(Trait.RESTING_UPTAKE);
    double reserve = (cost - rest) / (of(Trait.CAPACITY) - rest);
    double share = Math.max(0, Math.min(1, reserve));
    steady = of(Trait.RESTING_RATE) + share * (of(Trait.MAX_RATE) - of(Trait.RESTING_RATE));
  }

  /** When the person cannot go on any more, if the load stays as it is. */
  Optional<Duration> exhausted() {
    Duration endures = Duration.ofMillis(Math.round(of(Trait.ENDURES) * 1000));
    return tooMuchSince.map(start -> start.plus(endures));
  }

  /** What the population file says of a load, in mL/kg/min. */
  Optional<Double> modelledUptake(List<Load> loads) {
    return loads.isEmpty() ? Optional.empty() : physiology.uptake(physiology.frame(traits), loads);
  }

  /** What another signal shows, in its base unit, if the population file says it. */
  Optional<Double> modelled(String signal, Duration at) {
    return Optional.ofNullable(physiology.signals().get(signal))
        .map(
            shown -> {
              Frame frame = physiology.frame(traits);
              frame.set(physiology.effort(), Math.max(0, Math.min(1, effort(at))), 0);
              return shown.draw(frame, random);
            });
  }

  /** How long a stage of a protocol takes until it is done. */
  Optional<Duration> done(String protocol) {
    return Optional.ofNullable(physiology.done().get(protocol))
        .map(time -> time.draw(physiology.frame(traits), random))
        .map(seconds -> Duration.ofSeconds(Math.max(1, Math.round(seconds))));
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
