package org.gradus.library;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.knowledge.Citation;
import org.gradus.knowledge.Given;
import org.gradus.knowledge.Proviso;
import org.gradus.knowledge.Reckoning;
import org.gradus.protocol.Person;
import org.gradus.rule.answer.Truth;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.QuantityRange;
import org.gradus.words.Message;

/**
 * An equation of a library, to be worked out by itself: the oxygen cost of a load, a maximal heart
 * rate predicted from age, or the energy that an uptake spends in a minute. Immutable; shared
 * freely between threads.
 *
 * <pre>{@code
 * Equation walking = library.equation("walking");
 * Equation.Answer answer =
 *     walking.at(
 *         Map.of("speed", Quantity.of(3.5, Unit.MPH), "grade", Quantity.of(10, Unit.PERCENT)));
 * answer.value();    // 29.8 mL/kg/min
 * answer.interval(); // 25.7 to 33.9 mL/kg/min, in 95 of 100 people
 * answer.applies();  // TRUE: within the range its authors state
 * }</pre>
 */
public final class Equation {

  // So many standard deviations to either side hold 95 of 100 normal values.
  private static final double TWO_SIDED = 1.959964;

  private final String id;
  private final Reckoning formula;
  private final Map<String, Kind> names;
  private final Optional<Proviso> range;
  private final Optional<Quantity> sd;
  private final Citation source;

  Equation(
      String id,
      Reckoning formula,
      Map<String, Kind> names,
      Optional<Proviso> range,
      Optional<Quantity> sd,
      Citation source) {
    this.id = id;
    this.formula = formula;
    this.names = Map.copyOf(names);
    this.range = range;
    this.sd = sd;
    this.source = source;
  }

  /**
   * What an equation comes to.
   *
   * @param value the value; empty when something is missing
   * @param interval where the values of 95 of 100 people lie, where its spread is known
   * @param applies whether its authors say that it holds here; true where they name no limits,
   *     unknown where that cannot be told
   * @param lacks what is missing, or why it does not apply, in words
   */
  public record Answer(
      Optional<Quantity> value,
      Optional<QuantityRange> interval,
      Truth applies,
      List<Message> lacks) {
    public Answer {
      requireNonNull(applies, "applies");
      requireNonNull(interval, "interval");
      requireNonNull(lacks, "lacks");
      requireNonNull(value, "value");
      lacks = List.copyOf(lacks);
    }

    /** The same in English. */
    public List<String> reasons() {
      return lacks.stream().map(Message::toString).toList();
    }
  }

  /** The word by which protocols choose it. */
  public String id() {
    return id;
  }

  /** Its text. */
  public String text() {
    return formula.text();
  }

  /** Where its authors say that it holds, if they do. */
  public Optional<String> range() {
    return range.map(Proviso::toString);
  }

  /** Its standard deviation between people, as a share in % or as a value, if one is known. */
  public Optional<Quantity> sd() {
    return sd;
  }

  /** Where it comes from. */
  public Citation source() {
    return source;
  }

  /**
   * Works it out for nobody in particular.
   *
   * @param values by name: {@code speed}, {@code grade}, {@code power}, {@code mass}, {@code age},
   *     {@code uptake}
   * @throws ReadingRefused when a value is of another kind, or has a name no equation knows
   */
  public Answer at(Map<String, Quantity> values) {
    requireNonNull(values, "values");
    return at(Person.builder().build(), values);
  }

  /**
   * Works it out for a person.
   *
   * @param person whose age, sex and mass count where no value of that name is given
   * @param values by name, as in {@link #at(Map)}
   * @throws ReadingRefused when a value is of another kind, or has a name no equation knows
   */
  public Answer at(Person person, Map<String, Quantity> values) {
    requireNonNull(values, "values");
    Given given = person.given().with(values, names);
    double found = formula.value(given);
    if (Double.isNaN(found)) {
      return new Answer(Optional.empty(), Optional.empty(), Truth.UNKNOWN, formula.gaps(given));
    }
    Truth applies = Truth.TRUE;
    List<Message> reasons = List.of();
    if (range.isPresent()) {
      applies = range.get().test(given);
      reasons = applies == Truth.TRUE ? List.of() : range.get().against(given);
    }
    return new Answer(Optional.of(quantity(found)), interval(found), applies, reasons);
  }

  private Optional<QuantityRange> interval(double value) {
    return sd.flatMap(
            spread ->
                spread.kind() == Kind.NUMBER
                    ? Optional.of(spread.base() * value)
                    : Optional.of(spread.base()).filter(base -> spread.kind() == formula.kind()))
        .map(
            one ->
                new QuantityRange(
                    quantity(value - TWO_SIDED * one), quantity(value + TWO_SIDED * one)));
  }

  private Quantity quantity(double base) {
    return Quantity.ofBase(base, formula.kind().base());
  }
}
