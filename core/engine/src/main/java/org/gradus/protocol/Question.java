package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.gradus.knowledge.Citation;
import org.gradus.rule.Condition;
import org.gradus.rule.Formula;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.check.Demand;
import org.gradus.rule.plan.Frame;
import org.gradus.unit.Quantity;
import org.gradus.unit.QuantityRange;
import org.gradus.unit.Type;
import org.gradus.words.Joined;
import org.gradus.words.Message;

/**
 * Something the tester answers or chooses before the test.
 *
 * @param name the name rules use
 * @param type what an answer is
 * @param prompt the words to ask it with
 * @param range the range of answers, if there is one
 * @param options the values offered, of which one has to be chosen; empty when any may be given
 * @param fallback what counts as long as it is not answered, if anything does
 * @param unless where this holds the question is not asked and the answer is no
 * @param source where the question comes from
 */
// Members that show types of closed packages are for the engine and its tools.
@SuppressWarnings("exports")
public record Question(
    String name,
    Type type,
    String prompt,
    Optional<QuantityRange> range,
    List<Offered> options,
    Optional<Fallback> fallback,
    Optional<Condition> unless,
    Citation source) {

  /**
   * A value that is offered.
   *
   * @param value the value
   * @param when to whom, if not to everybody
   * @param source who prints it
   */
  public record Offered(Quantity value, Optional<Condition> when, Citation source) {
    public Offered {
      requireNonNull(source, "source");
      requireNonNull(value, "value");
      requireNonNull(when, "when");
    }
  }

  /** What counts as long as a question is not answered. */
  public sealed interface Fallback {

    /** Everything it rests on. */
    Set<Demand> demands();

    /** Its value on what is known; NaN where it is not. */
    double value(Frame frame);

    /**
     * A value worked out for the person.
     *
     * @param formula how
     */
    record Worked(Formula formula) implements Fallback {
      public Worked {
        requireNonNull(formula, "formula");
      }

      @Override
      public Set<Demand> demands() {
        return formula.demands();
      }

      @Override
      public double value(Frame frame) {
        return formula.value(frame);
      }
    }

    /**
     * Yes or no, worked out for the person.
     *
     * @param condition how
     */
    record Held(Condition condition) implements Fallback {
      public Held {
        requireNonNull(condition, "condition");
      }

      @Override
      public Set<Demand> demands() {
        return condition.demands();
      }

      @Override
      public double value(Frame frame) {
        Truth truth = condition.test(frame);
        return truth == Truth.UNKNOWN ? Double.NaN : truth == Truth.TRUE ? 1 : 0;
      }
    }

    /**
     * One of the words or yes or no.
     *
     * @param option the index of the word, or 1 for yes and 0 for no
     */
    record Fixed(int option) implements Fallback {
      @Override
      public Set<Demand> demands() {
        return Set.of();
      }

      @Override
      public double value(Frame frame) {
        return option;
      }
    }
  }

  public Question {
    requireNonNull(fallback, "fallback");
    requireNonNull(name, "name");
    requireNonNull(options, "options");
    requireNonNull(prompt, "prompt");
    requireNonNull(range, "range");
    requireNonNull(source, "source");
    requireNonNull(type, "type");
    requireNonNull(unless, "unless");
    options = List.copyOf(options);
  }

  /** Whether a value may be chosen, on what is known of the person. */
  public Truth offers(double value, Frame frame) {
    if (range.isPresent() && !range.get().holds(value)) {
      return Truth.FALSE;
    } else if (options.isEmpty()) {
      return Truth.TRUE;
    }
    Truth best = Truth.FALSE;
    for (Offered option : options) {
      if (Quantity.same(option.value().base(), value)) {
        best = best.or(option.when().isPresent() ? option.when().get().test(frame) : Truth.TRUE);
      }
    }
    return best;
  }

  /** What may be chosen, in English; empty when anything may. */
  public String allowed() {
    return choice().map(Message::toString).orElse("");
  }

  /** What may be chosen, to be said in any language; empty when anything may. */
  public Optional<Message> choice() {
    return options.stream()
        .map(option -> Message.of(Joined.ALONE, option.value()))
        .reduce(QuantityRange::either)
        .or(() -> range.map(limits -> Message.of(Joined.ALONE, limits)));
  }

  /** Everything its fallback and its options rest on. */
  public Set<Demand> demands() {
    return Set.copyOf(
        Stream.concat(
                fallback.stream().flatMap(otherwise -> otherwise.demands().stream()),
                options.stream()
                    .flatMap(option -> option.when().stream())
                    .flatMap(when -> when.demands().stream()))
            .toList());
  }
}
