package org.gradus.training;

import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.gradus.knowledge.Exercise;
import org.gradus.knowledge.Given;
import org.gradus.knowledge.ResultMessage;
import org.gradus.protocol.LoadRange;
import org.gradus.rule.answer.Truth;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.QuantityRange;
import org.gradus.unit.Unit;
import org.gradus.words.Joined;
import org.gradus.words.Message;
import org.gradus.words.Name;

/**
 * Solves the equation of an exercise for the load that has an uptake, and looks for it only where
 * the files of the test say that a load is possible.
 */
final class LoadFinder {

  private static final int MOST_STEPS = 200;
  private static final double NEAR_ENOUGH = 1e-10;

  private final Exercise exercise;
  private final Given given;
  private final Optional<Quantity> mass;
  private final Map<String, LoadRange> possible;
  private final double low;
  private final double high;

  LoadFinder(
      Exercise exercise, Given person, Optional<Quantity> mass, Map<String, LoadRange> possible) {
    Given known = person;
    for (Map.Entry<String, Quantity> load : exercise.set().entrySet()) {
      known = known.with(load.getKey(), load.getValue());
    }
    this.exercise = exercise;
    this.given = known;
    this.mass = mass;
    this.possible = possible;
    Optional<QuantityRange> limits = limits();
    this.low = limits.map(QuantityRange::low).orElse(exercise.between().low()).base();
    this.high = limits.map(QuantityRange::high).orElse(exercise.between().high()).base();
  }

  // The range of the load that is looked for, where it takes something from the exercise.
  private Optional<QuantityRange> limits() {
    QuantityRange between = exercise.between();
    return Optional.ofNullable(possible.get(exercise.solved()))
        .map(LoadRange::range)
        .filter(
            range ->
                range.low().base() > between.low().base()
                    || range.high().base() < between.high().base())
        .map(
            range ->
                new QuantityRange(
                    range.low().base() > between.low().base() ? range.low() : between.low(),
                    range.high().base() < between.high().base() ? range.high() : between.high()));
  }

  // Why none of its loads can be set, if that is so.
  private Optional<Message> impossible() {
    Optional<Message> set =
        exercise.set().entrySet().stream()
            .sorted(Map.Entry.comparingByKey())
            .filter(load -> !isPossible(load.getKey(), load.getValue()))
            .map(
                load ->
                    only(
                        load.getKey(),
                        ResultMessage.LOAD_NOT_POSSIBLE,
                        ResultMessage.LOAD_NOT_POSSIBLE_ONLY,
                        load.getValue()))
            .findFirst();
    return low <= high
        ? set
        : Optional.of(
            only(
                exercise.solved(),
                ResultMessage.NO_LOAD_POSSIBLE,
                ResultMessage.NO_LOAD_POSSIBLE_ONLY,
                said(exercise.between())));
  }

  private boolean isPossible(String load, Quantity value) {
    return Optional.ofNullable(possible.get(load))
        .map(range -> range.holds(value.base()))
        .orElse(true);
  }

  private Message only(String load, ResultMessage plain, ResultMessage limited, Object value) {
    Name name = new Name(load);
    return Optional.ofNullable(possible.get(load))
        .map(range -> Message.of(limited, name, value, said(range.range())))
        .orElseGet(() -> Message.of(plain, name, value));
  }

  private static Message said(QuantityRange range) {
    return Message.of(ResultMessage.RANGE, range.low(), range.high());
  }

  /** The loads at the uptakes of a band, as far as they can be reached. */
  LoadPlan plan(Range uptake) {
    Optional<Message> impossible = impossible();
    if (impossible.isPresent()) {
      return new LoadPlan.NotReachable(
          exercise, Message.of(ResultMessage.NOT_REACHABLE, impossible.get()));
    }
    double least = uptakeAt(low);
    double most = uptakeAt(high);
    if (Double.isNaN(least) || Double.isNaN(most)) {
      return new LoadPlan.NotReachable(
          exercise,
          Message.of(Joined.ALONE, exercise.cost().gaps(given.with(exercise.solved(), low))));
    }
    double from = uptake.from().map(Quantity::base).orElse(Double.NEGATIVE_INFINITY);
    double to = uptake.to().map(Quantity::base).orElse(Double.POSITIVE_INFINITY);
    if (from > most || to < least) {
      return new LoadPlan.NotReachable(
          exercise, Message.of(ResultMessage.NEEDS, reach(least, most)));
    }
    OptionalDouble first = solve(Math.max(from, least));
    OptionalDouble last = solve(Math.min(to, most));
    if (first.isEmpty() || last.isEmpty()) {
      return new LoadPlan.NotReachable(
          exercise,
          Message.of(
              ResultMessage.STATED_ONLY_FOR, exercise.range().map(Object::toString).orElse("")));
    }
    Unit unit = exercise.between().low().unit();
    Range load =
        new Range(
            Optional.of(Quantity.ofBase(first.getAsDouble(), unit)),
            Optional.of(Quantity.ofBase(last.getAsDouble(), unit)));
    boolean whole = from >= least && to <= most;
    return new LoadPlan.Reachable(
        exercise,
        load,
        whole
            ? Optional.empty()
            : Optional.of(Message.of(ResultMessage.PART_OF_BAND, reach(least, most))));
  }

  private Message reach(double least, double most) {
    Quantity from = Quantity.of(least, Unit.ML_PER_KG_PER_MINUTE).rounded(1);
    Quantity to = Quantity.of(most, Unit.ML_PER_KG_PER_MINUTE).rounded(1);
    String low = Quantity.plain(from.amount());
    return limits()
        .map(
            range ->
                Message.of(
                    ResultMessage.REACH_WITH, low, to, new Name(exercise.solved()), said(range)))
        .orElseGet(() -> Message.of(ResultMessage.REACH, low, to));
  }

  /** The load that has an uptake, if there is one where the equation is stated. */
  OptionalDouble solve(double uptake) {
    double atLow = uptakeAt(low) - uptake;
    double atHigh = uptakeAt(high) - uptake;
    double load;
    if (Math.abs(atLow) <= NEAR_ENOUGH) {
      load = low;
    } else if (Math.abs(atHigh) <= NEAR_ENOUGH) {
      load = high;
    } else if (atLow * atHigh > 0) {
      return OptionalDouble.empty();
    } else {
      load =
          new BrentSolver(NEAR_ENOUGH)
              .solve(MOST_STEPS, value -> uptakeAt(value) - uptake, low, high);
    }
    boolean stated =
        exercise
            .range()
            .map(range -> range.test(given.with(exercise.solved(), load)) == Truth.TRUE)
            .orElse(true);
    return stated ? OptionalDouble.of(load) : OptionalDouble.empty();
  }

  /** The uptake of a load per kilogram; not a number where something is not known. */
  double uptakeAt(double load) {
    double uptake = exercise.cost().value(given.with(exercise.solved(), load));
    return exercise.cost().kind() == Kind.UPTAKE
        ? uptake
        : uptake / mass.map(Quantity::base).orElse(Double.NaN);
  }
}
