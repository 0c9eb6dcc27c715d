package org.gradus.capacity;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;
import org.gradus.capacity.Estimate.Ingredient;
import org.gradus.knowledge.Citation;
import org.gradus.knowledge.PlausibleRange;
import org.gradus.knowledge.ResultMessage;
import org.gradus.protocol.EstimateLine;
import org.gradus.protocol.EstimateLine.PublishedError;
import org.gradus.protocol.Suspicion;
import org.gradus.unit.Quantity;
import org.gradus.words.Joined;
import org.gradus.words.Message;

/**
 * A result of a test that is no aerobic capacity: a power at a lactate, a distance, a heart rate.
 * As an {@link Estimate} it has an interval and says what it rests on. Immutable.
 *
 * @param id its id in the protocol
 * @param title what it is called
 * @param source where the method comes from
 * @param assumes what it takes for granted, in a sentence; or empty
 * @param value the value in the unit of the result, unrounded; empty when it could not be worked
 *     out
 * @param interval where the true value lies in 95 of 100 such tests, where anything is known of the
 *     errors and the value is plausible
 * @param reference what is expected of such a person, where the protocol says so and what it rests
 *     on is known
 * @param calculation the formula with its numbers filled in; empty without a value
 * @param ingredients what it rests on
 * @param publishedError the error a publication found for the method, if the protocol names one
 * @param warnings what to keep in mind with it
 * @param outside the plausible range that the value lies outside of, if it does; such a value is
 *     shown, so that a mistake can be found, but it is no result
 * @param lacks why there is no result; empty when there is one
 */
public record Result(
    String id,
    String title,
    Citation source,
    String assumes,
    Optional<Quantity> value,
    Optional<Interval> interval,
    Optional<Compared> reference,
    String calculation,
    List<Ingredient> ingredients,
    Optional<PublishedError> publishedError,
    List<Message> warnings,
    Optional<PlausibleRange> outside,
    List<Message> lacks) {

  public Result {
    requireNonNull(lacks, "lacks");
    requireNonNull(warnings, "warnings");
    requireNonNull(assumes, "assumes");
    requireNonNull(calculation, "calculation");
    requireNonNull(id, "id");
    requireNonNull(ingredients, "ingredients");
    requireNonNull(interval, "interval");
    requireNonNull(outside, "outside");
    requireNonNull(publishedError, "publishedError");
    requireNonNull(reference, "reference");
    requireNonNull(source, "source");
    requireNonNull(title, "title");
    requireNonNull(value, "value");
    ingredients = List.copyOf(ingredients);
    warnings = List.copyOf(warnings);
    lacks = List.copyOf(lacks);
  }

  /** What to keep in mind with it, in English. */
  public List<String> cautions() {
    return warnings.stream().map(Message::toString).toList();
  }

  /** Why there is no result, in English; empty when there is one. */
  public List<String> reasons() {
    return lacks.stream().map(Message::toString).toList();
  }

  /**
   * What is expected of such a person.
   *
   * @param value the expected value
   * @param lower the lower limit of what is usual, if the source gives it
   * @param upper the upper limit of what is usual, if the source gives it
   * @param source who found it
   */
  public record Compared(
      Quantity value, Optional<Quantity> lower, Optional<Quantity> upper, Citation source) {
    public Compared {
      requireNonNull(lower, "lower");
      requireNonNull(source, "source");
      requireNonNull(upper, "upper");
      requireNonNull(value, "value");
    }

    /** A value as a whole percentage of what is expected; empty where zero is expected. */
    public Optional<Long> percent(Quantity of) {
      return value.base() == 0
          ? Optional.empty()
          : Optional.of(Math.round(100 * of.base() / value.base()));
    }
  }

  static Result unavailable(EstimateLine line, EstimateLine.Shown shown, List<Message> lacks) {
    return new Result(
        line.id(),
        shown.title(),
        line.source(),
        line.assumes(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        "",
        List.of(),
        line.error(),
        List.of(),
        Optional.empty(),
        lacks);
  }

  /** Whether there is a value, and one that is plausible. */
  public boolean isAvailable() {
    return value.isPresent() && outside.isEmpty();
  }

  /**
   * The result in one line: {@code "482 m, 84 % of predicted; lower limit 430 m"}, or why there is
   * none.
   */
  public String words() {
    return message().toString();
  }

  /** The same, to be said in any language. */
  public Message message() {
    if (!isAvailable()) {
      return lacks.stream()
          .reduce((one, more) -> Message.of(Joined.SEMICOLON, one, more))
          .orElse(Message.of(ResultMessage.NONE));
    }
    Quantity found = value.orElseThrow();
    Message said = Message.of(Joined.ALONE, rounded(found));
    if (reference.isEmpty()) {
      return said;
    }
    Compared expected = reference.get();
    said = with(ResultMessage.PERCENT, said, expected.percent(found).map(String::valueOf));
    said = with(ResultMessage.LOWER_LIMIT, said, expected.lower().map(Result::rounded));
    return with(ResultMessage.UPPER_LIMIT, said, expected.upper().map(Result::rounded));
  }

  private static Message with(ResultMessage key, Message said, Optional<?> more) {
    return more.isPresent() ? Message.of(key, said, more.get()) : said;
  }

  /** To at most three digits before or after the point, as results are shown. */
  static Quantity rounded(Quantity value) {
    double size = Math.abs(value.amount());
    return value.rounded(size >= 100 ? 0 : size >= 10 ? 1 : 2);
  }

  /** What a tester has to be told of an implausible value. */
  Optional<Finding> finding() {
    return outside.map(
        range ->
            new Finding(
                "implausible-" + id.replace('_', '-'),
                new Suspicion(title, Suspicion.Look.SUM),
                List.of(),
                Message.of(Joined.SENTENCE, lacks.get(0)),
                calculation,
                range.source()));
  }
}
