package org.gradus.capacity;

import static java.util.Objects.requireNonNull;

import java.util.List;
import org.gradus.knowledge.Citation;
import org.gradus.knowledge.ResultMessage;
import org.gradus.unit.Quantity;
import org.gradus.words.Message;

/**
 * Where the true value of a capacity or another result lies in 95 of 100 such tests, if what is
 * known of the errors holds for this person. It holds the errors of what the estimate rests on and,
 * added in quadrature, how far the method itself may be off.
 *
 * @param low its lower end; not below zero, where nothing of its kind is
 * @param high its upper end
 * @param sd the standard deviation it is made of
 * @param basis where its figure for the method comes from
 * @param propagated the standard deviation that follows from what the estimate rests on; zero where
 *     nothing is known about the errors of any of it
 * @param readings its part that follows from the errors of the readings alone; the rest of it is
 *     how much people differ
 * @param model the standard deviation of the method itself, as if all it rests on were right; zero
 *     where no file says it
 * @param shares what the variance is made of, the largest first
 * @param nearLinear whether the formula is near enough to a straight line over these errors; where
 *     it is not, the true interval is lopsided and wider on one side
 */
public record Interval(
    Quantity low,
    Quantity high,
    Quantity sd,
    Basis basis,
    Quantity propagated,
    Quantity readings,
    Quantity model,
    List<Share> shares,
    boolean nearLinear) {

  /** Where an interval has its figure for the method from. */
  public enum Basis {
    /**
     * The errors of all that the estimate rests on, and the share of the model, if a file has it.
     */
    PROPAGATED,
    /**
     * The error a publication found for the method as a whole, since it is wider: what it leaves
     * beyond the errors of all that the estimate rests on counts for the method.
     */
    PUBLISHED
  }

  /**
   * What one source of error contributes.
   *
   * @param label what it is
   * @param sd the standard deviation of the answer if there were no other error
   * @param share its part of the variance, from 0 to 1
   * @param percent the same in whole per cent, rounded so that all shares together are 100
   * @param source where the figure comes from
   */
  public record Share(Message label, Quantity sd, double share, int percent, Citation source) {
    public Share {
      requireNonNull(label, "label");
      requireNonNull(sd, "sd");
      requireNonNull(source, "source");
    }

    /** What it is, in English. */
    public String name() {
      return label.toString();
    }
  }

  public Interval {
    requireNonNull(basis, "basis");
    requireNonNull(high, "high");
    requireNonNull(low, "low");
    requireNonNull(model, "model");
    requireNonNull(propagated, "propagated");
    requireNonNull(readings, "readings");
    requireNonNull(sd, "sd");
    requireNonNull(shares, "shares");
    shares = List.copyOf(shares);
  }

  /** Whether a value lies in it, its ends included. */
  public boolean holds(Quantity value) {
    return low.base() <= value.base() && value.base() <= high.base();
  }

  /** Both ends, to one decimal, to be said in any language. */
  public Message message() {
    return Message.of(
        ResultMessage.RANGE, Quantity.plain(low.rounded(1).amount()), high.rounded(1));
  }

  /** Both ends, to one decimal: {@code "30.1 to 45.2 mL/kg/min"}. */
  @Override
  public String toString() {
    return message().toString();
  }
}
