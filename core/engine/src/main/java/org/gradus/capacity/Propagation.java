package org.gradus.capacity;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.gradus.capacity.Interval.Basis;
import org.gradus.capacity.Interval.Share;
import org.gradus.knowledge.Citation;
import org.gradus.knowledge.ResultMessage;
import org.gradus.protocol.EstimateLine;
import org.gradus.protocol.EstimateLine.Covers;
import org.gradus.protocol.EstimateLine.PublishedError;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.gradus.words.Message;
import org.gradus.words.Name;

/**
 * Carries the errors of all that an estimate rests on through its formula to first order, each by
 * half the difference between the answers a standard deviation up and down (JCGM 100:2008, 5.1.3,
 * note 2).
 */
final class Propagation {

  /** How much of the spread the bend of a formula may shift the answer by, to pass for straight. */
  private static final double STRAIGHT = 0.1;

  /** So many standard deviations to either side hold 95 of 100 normal values. */
  static final double TWO_SIDED =
      new NormalDistribution(null, 0, 1).inverseCumulativeProbability(0.975);

  private final Situation situation;
  private final double perKilogram;
  private final Unit unit;
  private final Map<Named, Double> variances = new LinkedHashMap<>();
  private double bend;
  private boolean broken;
  private double ofPeople;

  private record Named(Message label, Citation source) {}

  /**
   * @param perKilogram what turns the formula's answer into an uptake per kilogram; 1 for a result
   *     of another kind
   * @param unit the unit in which the answer and its errors are told
   */
  Propagation(Situation situation, double perKilogram, Unit unit) {
    this.unit = unit;
    this.situation = situation;
    this.perKilogram = perKilogram;
  }

  /**
   * The interval around an estimate.
   *
   * @param interval where there is one
   * @param lacking why there is none, or what it leaves out, as a caution
   */
  record Around(Optional<Interval> interval, Optional<Message> lacking) {
    private static Around none(Message why) {
      return new Around(Optional.empty(), Optional.of(why));
    }
  }

  /**
   * The interval around an estimate. There is none where nothing is known of any error, nor where
   * the errors of the readings are all that is known: that would leave out the largest part, how
   * much people differ from the formula.
   *
   * <p>What it rests on and the model are two things, so their variances are added. A published
   * error of the method as a whole holds both: what it leaves beyond the errors of all that the
   * estimate rests on is another figure for the model, and the larger of the two counts.
   */
  Around interval(double value, List<Doubt> doubts, EstimateLine line) {
    double here = situation.value();
    doubts.forEach(doubt -> carry(doubt, here));
    double propagated = variances.values().stream().mapToDouble(v -> v).sum();
    double published =
        line.error()
            .filter(found -> found.covers() == Covers.METHOD)
            .map(found -> square(published(found.sd(), value)))
            .orElse(0.0);
    double stated = line.model().map(model -> square(model.at(value))).orElse(0.0);
    boolean byPublished = published > propagated + stated;
    double model = byPublished ? published - propagated : stated;
    double sd = Math.sqrt(propagated + model);
    if (sd == 0) {
      return Around.none(Message.of(ResultMessage.NO_ERRORS));
    } else if (broken) {
      return Around.none(Message.of(ResultMessage.NO_VALUE));
    } else if (model == 0 && ofPeople == 0) {
      return Around.none(Message.of(ResultMessage.ONLY_READINGS, told(TWO_SIDED * sd).rounded(1)));
    }
    if (byPublished) {
      PublishedError error = line.error().orElseThrow();
      add(new Named(Message.of(ResultMessage.METHOD_BEYOND), error.source()), model);
    } else {
      line.model()
          .ifPresent(
              known ->
                  add(
                      new Named(
                          Message.of(ResultMessage.MODEL, new Name(known.id())), known.source()),
                      model));
    }
    return new Around(
        Optional.of(
            new Interval(
                told(lowest(value - TWO_SIDED * sd)),
                told(value + TWO_SIDED * sd),
                told(sd),
                byPublished ? Basis.PUBLISHED : Basis.PROPAGATED,
                told(Math.sqrt(propagated)),
                told(Math.sqrt(Math.max(0, propagated - ofPeople))),
                told(Math.sqrt(model)),
                shares(propagated + model),
                Math.abs(bend) <= STRAIGHT * sd)),
        model == 0 ? Optional.of(Message.of(ResultMessage.WITHOUT_MODEL)) : Optional.empty());
  }

  private void add(Named named, double variance) {
    variances.merge(named, variance, Double::sum);
  }

  private static double square(double number) {
    return number * number;
  }

  // A share of the answer, unless the answer is a plain number itself.
  private double published(Quantity sd, double value) {
    if (sd.kind() == unit.kind()) {
      return sd.base();
    }
    return sd.kind() == Kind.NUMBER ? sd.base() * Math.abs(value) : sd.base() * perKilogram;
  }

  // No capacity, power or distance lies below zero; a difference or an angle may.
  private double lowest(double low) {
    return unit.kind() == Kind.NUMBER || unit.kind() == Kind.ANGLE ? low : Math.max(0, low);
  }

  private Quantity told(double base) {
    return Quantity.ofBase(base, unit);
  }

  private void carry(Doubt doubt, double here) {
    Situation.Moved moved = situation.moved(doubt);
    double up = moved.up() - here;
    double down = moved.down() - here;
    // A line that no longer rises has no answer there: what is left is the other side, and no line.
    boolean torn = Double.isNaN(up) || Double.isNaN(down);
    double half = torn ? (Double.isNaN(up) ? -down : up) : (up - down) / 2;
    bend += torn ? Double.POSITIVE_INFINITY : perKilogram * (up + down) / 2;
    broken |= Double.isNaN(half);
    double variance = half * half * perKilogram * perKilogram;
    ofPeople += doubt.of() == Doubt.Of.PEOPLE ? variance : 0;
    for (Doubt.Part part : doubt.parts()) {
      add(new Named(part.label(), part.source()), variance * part.weight());
    }
  }

  private List<Share> shares(double whole) {
    Map<Named, Double> parts = new LinkedHashMap<>();
    variances.forEach(
        (named, variance) -> {
          if (variance > 0) {
            parts.put(named, variance / whole);
          }
        });
    List<Named> names = List.copyOf(parts.keySet());
    int[] percents = Percents.of(parts.values().stream().mapToDouble(part -> part).toArray());
    List<Share> shares = new ArrayList<>();
    for (int i = 0; i < names.size(); i++) {
      Named named = names.get(i);
      double share = parts.getOrDefault(named, 0.0);
      shares.add(
          new Share(
              named.label(), told(Math.sqrt(share * whole)), share, percents[i], named.source()));
    }
    shares.sort(Comparator.comparingDouble(Share::share).reversed());
    return shares;
  }
}
