package org.gradus.capacity;

import static java.util.Objects.requireNonNull;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.gradus.knowledge.Citation;
import org.gradus.knowledge.Repeat;
import org.gradus.knowledge.ResultMessage;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.gradus.words.FileText;
import org.gradus.words.Message;

/**
 * What has become of a person's capacity between two tests: more than tests of an unchanged person
 * differ by, or not.
 *
 * <pre>{@code
 * Change change = Change.between(before, after, walk.assessment().repeats());
 * }</pre>
 */
public sealed interface Change {

  /** What has become of it, to be said in any language. */
  Message message();

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
    public Judged {
      requireNonNull(difference, "difference");
      requireNonNull(estimate, "estimate");
      requireNonNull(least, "least");
      requireNonNull(source, "source");
      requireNonNull(spread, "spread");
    }

    @Override
    public Message message() {
      String by = (difference.amount() < 0 ? "" : "+") + difference.rounded(1);
      return Message.of(
          isReal ? ResultMessage.MORE_THAN_REPEATS : ResultMessage.WITHIN_REPEATS,
          by,
          least.rounded(1));
    }

    @Override
    public String toString() {
      return message().toString();
    }
  }

  /**
   * A change that cannot be judged.
   *
   * @param reason why not
   */
  record Open(Message reason) implements Change {
    public Open {
      requireNonNull(reason, "reason");
    }

    @Override
    public Message message() {
      return reason;
    }

    @Override
    public String toString() {
      return reason.toString();
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
    requireNonNull(repeats, "repeats");
    if (!before.facts().protocol().equals(after.facts().protocol())) {
      return new Open(Message.of(ResultMessage.DIFFERENT_PROTOCOLS));
    }
    Optional<Message> difference = difference(before.facts(), after.facts());
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
    return new Open(Message.of(ResultMessage.NOTHING_IN_COMMON));
  }

  // What else the method consists of: with another setting or another maximum its bias is another.
  private static Optional<Message> difference(TestFacts before, TestFacts after) {
    for (Map.Entry<String, String> setting : new TreeMap<>(before.settings()).entrySet()) {
      String name = setting.getKey();
      String then = setting.getValue();
      Optional<String> now = Optional.ofNullable(after.settings().get(name));
      if (!now.equals(Optional.of(then))) {
        return Optional.of(
            Message.of(
                ResultMessage.DIFFERENT_SETTINGS,
                new FileText(name),
                new FileText(then),
                now.<Object>map(FileText::new).orElse(ResultMessage.NOT_THERE)));
      }
    }
    return before.maximum().equals(after.maximum())
        ? Optional.empty()
        : Optional.of(
            Message.of(
                ResultMessage.DIFFERENT_MAXIMUM,
                chosen(before.maximum()),
                chosen(after.maximum())));
  }

  private static Object chosen(Optional<String> maximum) {
    return maximum.<Object>map(FileText::new).orElse(ResultMessage.NONE);
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
      return new Open(Message.of(ResultMessage.REPEATS_NOT_KNOWN, new FileText(purpose)));
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
