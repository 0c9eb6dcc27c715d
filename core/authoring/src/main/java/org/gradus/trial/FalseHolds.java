package org.gradus.trial;

import static java.util.Objects.requireNonNull;

import java.util.Locale;
import org.gradus.trial.Run.End;

/**
 * How many people are held only because of the way their heart rate is read: the same people take
 * the same test twice, once with the exact rate. Whom that never holds was steady at the end of
 * every stage.
 *
 * @param counting the way of reading
 * @param steady people whom the exact rate never held
 * @param held those of them who were held all the same
 */
public record FalseHolds(Counting counting, long steady, long held) {
  public FalseHolds {
    requireNonNull(counting, "counting");
  }

  /** Nobody yet. */
  static FalseHolds none(Counting counting) {
    return new FalseHolds(counting, 0, 0);
  }

  /** One person, twice. */
  static FalseHolds of(Counting counting, Run exact, Run counted) {
    boolean steady = exact.end() != End.DEFERRED && exact.holds() == 0;
    return new FalseHolds(counting, steady ? 1 : 0, steady && counted.holds() > 0 ? 1 : 0);
  }

  FalseHolds and(FalseHolds other) {
    return new FalseHolds(counting, steady + other.steady, held + other.held);
  }

  /** The share of steady people who are held, from 0 to 1; NaN when nobody was steady. */
  public double share() {
    return (double) held / steady;
  }

  /** In one line. */
  @Override
  public String toString() {
    return steady == 0
        ? counting.words() + ": nobody was steady at the end of every stage"
        : String.format(
            Locale.ROOT,
            "%s: %.1f %% of %d steady people held at least once",
            counting.words(),
            100 * share(),
            steady);
  }
}
