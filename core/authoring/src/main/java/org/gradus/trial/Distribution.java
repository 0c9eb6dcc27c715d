package org.gradus.trial;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import java.util.SplittableRandom;
import org.gradus.knowledge.Citation;
import org.gradus.rule.Formula;
import org.gradus.rule.plan.Frame;
import org.gradus.unit.QuantityRange;

/**
 * How a trait is distributed. What lies outside {@code within} is drawn again, and after many tries
 * set to the nearer end.
 *
 * @param shape its shape
 * @param mean its mean; of a chance, how likely it is; of an even shape, nothing
 * @param sd its standard deviation, where the shape has one
 * @param within where it lies; of an even shape, from where to where
 * @param source where the figures come from
 */
public record Distribution(
    Shape shape,
    Optional<Formula> mean,
    Optional<Formula> sd,
    Optional<QuantityRange> within,
    Citation source) {

  /** Shapes. */
  public enum Shape {
    /** The same for all. */
    FIXED,
    /** So, with a probability. */
    CHANCE,
    /** Everywhere alike. */
    UNIFORM,
    /** The bell. */
    NORMAL,
    /** A bell of the logarithm, for what cannot be below zero and reaches far up. */
    LOGNORMAL
  }

  private static final int TRIES = 100;

  public Distribution {
    requireNonNull(mean, "mean");
    requireNonNull(sd, "sd");
    requireNonNull(shape, "shape");
    requireNonNull(source, "source");
    requireNonNull(within, "within");
  }

  /** Draws a value, which may rest on traits drawn before. */
  double draw(Frame before, SplittableRandom random) {
    double center = mean.map(formula -> formula.value(before)).orElse(0.0);
    double spread = sd.map(formula -> formula.value(before)).orElse(0.0);
    return switch (shape) {
      case FIXED -> center;
      case CHANCE -> random.nextDouble() < center ? 1 : 0;
      case UNIFORM -> {
        double low = within.orElseThrow().low().base();
        double high = within.orElseThrow().high().base();
        yield low + random.nextDouble() * (high - low);
      }
      case NORMAL -> inside(center, spread, false, random);
      case LOGNORMAL -> {
        double ratio = spread / center;
        double sigma = StrictMath.sqrt(StrictMath.log(1 + ratio * ratio));
        yield inside(StrictMath.log(center) - sigma * sigma / 2, sigma, true, random);
      }
    };
  }

  private double inside(double center, double spread, boolean log, SplittableRandom random) {
    double low = within.map(range -> range.low().base()).orElse(Double.NEGATIVE_INFINITY);
    double high = within.map(range -> range.high().base()).orElse(Double.POSITIVE_INFINITY);
    double value = center;
    for (int i = 0; i < TRIES; i++) {
      double drawn = center + spread * Bell.draw(random);
      value = log ? StrictMath.exp(drawn) : drawn;
      if (value >= low && value <= high) {
        return value;
      }
    }
    return Math.max(low, Math.min(high, value));
  }
}
