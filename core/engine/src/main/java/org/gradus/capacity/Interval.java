package org.gradus.capacity;

import java.util.List;
import org.gradus.knowledge.Citation;
import org.gradus.unit.Quantity;

/**
 * Where the true capacity lies in 95 of 100 such tests, if what is known of the errors holds for
 * this person.
 *
 * @param low its lower end, not below zero: no capacity is
 * @param high its upper end
 * @param sd the standard deviation it is made of
 * @param basis what it rests on: the wider of what is known
 * @param propagated the standard deviation that follows from what the estimate rests on; zero where
 *     nothing is known about the errors of any of it
 * @param shares what the propagated variance is made of, the largest first
 * @param nearLinear whether the formula is near enough to a straight line over these errors; where
 *     it is not, the true interval is lopsided and wider on one side
 */
public record Interval(
    Quantity low,
    Quantity high,
    Quantity sd,
    Basis basis,
    Quantity propagated,
    List<Share> shares,
    boolean nearLinear) {

  /** What an interval rests on. */
  public enum Basis {
    /** The errors of all that the estimate rests on, carried through its formula. */
    PROPAGATED,
    /** The error a publication found for the method as a whole. */
    PUBLISHED
  }

  /**
   * What one source of error contributes.
   *
   * @param name in words
   * @param sd the standard deviation of the answer if there were no other error
   * @param share its part of the propagated variance, from 0 to 1
   * @param percent the same in whole per cent, rounded so that all shares together are 100
   * @param source where the figure comes from
   */
  public record Share(String name, Quantity sd, double share, int percent, Citation source) {}

  public Interval {
    shares = List.copyOf(shares);
  }

  /** Whether a capacity lies in it, its ends included. */
  public boolean holds(Quantity capacity) {
    return low.base() <= capacity.base() && capacity.base() <= high.base();
  }

  /** Both ends, to one decimal: {@code "30.1 to 45.2 mL/kg/min"}. */
  @Override
  public String toString() {
    return Quantity.plain(low.rounded(1).amount()) + " to " + high.rounded(1);
  }
}
