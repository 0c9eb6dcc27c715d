package org.gradus.capacity;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import org.gradus.knowledge.Citation;
import org.gradus.knowledge.Repeat;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/**
 * What has become of a person's capacity between two tests: more than tests of an unchanged person
 * differ by, or not.
 *
 * <pre>{@code
 * Change change = Change.between(before, after, walk.assessment().repeats());
 * }</pre>
 */
public sealed interface Change {

  /**
   * A change that can be judged.
   *
   * @param estimate the id of the estimate both tests have in common
   * @param difference the later answer less the earlier one
   * @param least by how much two tests of an unchanged person differ at most in 95 of 100 cases
   * @param isReal whether the difference is larger than that
   * @param spread what that rests on: the standard deviation of one answer
   * @param source who found it
   */
  record Judged(
      String estimate,
      Quantity difference,
      Quantity least,
      boolean isReal,
      Quantity spread,
      Citation source)
      implements Change {
    @Override
    public String toString() {
      String by = (difference.amount() < 0 ? "" : "+") + difference.rounded(1);
      return isReal
          ? by + ": more than the " + least.rounded(1) + " that repeated tests differ by"
          : by + ": within the " + least.rounded(1) + " that repeated tests differ by";
    }
  }

  /**
   * A change that cannot be judged.
   *
   * @param reason why not
   */
  record Open(String reason) implements Change {
    @Override
    public String toString() {
      return reason;
    }
  }

  /**
   * Compares two tests of one person. They must have been done by one protocol with the same
   * settings, the maximal heart rate chosen in the same way, and have an estimate in common, since
   * the bias of a method only cancels out of the difference where it is the same.
   *
   * @param repeats how much repeated answers differ; of those for the purpose of the test the
   *     widest counts
   */
  static Change between(Capacity before, Capacity after, List<Repeat> repeats) {
    if (!before.facts().protocol().equals(after.facts().protocol())) {
      return new Open("the two tests were done by different protocols");
    }
    Optional<String> difference = difference(before.facts(), after.facts());
    if (difference.isPresent()) {
      return new Open(difference.get());
    }
    for (Estimate earlier : before.estimates()) {
      Optional<Estimate> later = after.estimate(earlier.id());
      if (!earlier.secondLook()
          && earlier instanceof Estimate.Available first
          && later.orElse(earlier) instanceof Estimate.Available second
          && later.isPresent()) {
        return judged(first, second, before.facts().purpose(), repeats);
      }
    }
    return new Open("the two tests have no estimate in common");
  }

  // What else the method consists of: with another setting or another maximum its bias is another.
  private static Optional<String> difference(TestFacts before, TestFacts after) {
    for (String name : new TreeSet<>(before.settings().keySet())) {
      String then = before.settings().get(name);
      String now = after.settings().getOrDefault(name, "not there");
      if (!now.equals(then)) {
        return Optional.of(
            "the two tests were done with different settings: "
                + name
                + " was "
                + then
                + ", then "
                + now);
      }
    }
    return before.maximum().equals(after.maximum())
        ? Optional.empty()
        : Optional.of(
            "the maximal heart rate was chosen in different ways: "
                + before.maximum().orElse("none")
                + ", then "
                + after.maximum().orElse("none"));
  }

  private static Change judged(
      Estimate.Available first, Estimate.Available second, String purpose, List<Repeat> repeats) {
    double a = first.vo2max().base();
    double b = second.vo2max().base();
    Optional<Repeat> widest =
        repeats.stream()
            .filter(repeat -> repeat.purpose().equals(purpose))
            .max(Comparator.comparingDouble(repeat -> together(repeat, a, b)));
    if (widest.isEmpty()) {
      return new Open("it is not known how much repeated " + purpose + " tests differ");
    }
    double least = Propagation.TWO_SIDED * together(widest.get(), a, b);
    return new Judged(
        first.id(),
        Quantity.of(b - a, Unit.ML_PER_KG_PER_MINUTE),
        Quantity.of(least, Unit.ML_PER_KG_PER_MINUTE),
        Math.abs(b - a) > least,
        widest.get().sd(),
        widest.get().source());
  }

  // The standard deviation of the difference of two answers.
  private static double together(Repeat repeat, double a, double b) {
    return Math.hypot(sd(repeat, a), sd(repeat, b));
  }

  private static double sd(Repeat repeat, double answer) {
    return repeat.sd().kind() == Kind.NUMBER ? repeat.sd().base() * answer : repeat.sd().base();
  }
}
