package org.gradus.unit;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.function.Function;

/** What a part of a rule evaluates to. */
public sealed interface Type {

  /** A plain number, shared because it is everywhere. */
  Type NUMBER = new Measure(Kind.NUMBER);

  /** A condition, shared because it is everywhere. */
  Type CONDITION = new Condition();

  /**
   * What comes of it, by which of the three it is.
   *
   * @param <R> what comes of it
   */
  <R> R match(
      Function<Measure, ? extends R> measure,
      Function<Condition, ? extends R> condition,
      Function<Choice, ? extends R> choice);

  /** In words with an article: {@code "a heart rate"}. */
  String phrase();

  /**
   * A value of one kind.
   *
   * @param kind what it is a measure of
   */
  record Measure(Kind kind) implements Type {
    public Measure {
      requireNonNull(kind, "kind");
    }

    @Override
    public String phrase() {
      return kind.phrase();
    }

    @Override
    public <R> R match(
        Function<Measure, ? extends R> measure,
        Function<Condition, ? extends R> condition,
        Function<Choice, ? extends R> choice) {
      return measure.apply(this);
    }
  }

  /** Yes, no or unknown. */
  record Condition() implements Type {
    @Override
    public String phrase() {
      return "a condition";
    }

    @Override
    public <R> R match(
        Function<Measure, ? extends R> measure,
        Function<Condition, ? extends R> condition,
        Function<Choice, ? extends R> choice) {
      return condition.apply(this);
    }
  }

  /**
   * One word of several.
   *
   * @param options the words, in the order of the file
   */
  record Choice(List<String> options) implements Type {
    public Choice {
      requireNonNull(options, "options");
      options = List.copyOf(options);
    }

    @Override
    public String phrase() {
      return "a choice of " + String.join(", ", options);
    }

    @Override
    public <R> R match(
        Function<Measure, ? extends R> measure,
        Function<Condition, ? extends R> condition,
        Function<Choice, ? extends R> choice) {
      return choice.apply(this);
    }
  }
}
