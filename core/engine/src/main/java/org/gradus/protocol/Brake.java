package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import org.gradus.knowledge.Citation;
import org.gradus.unit.Quantity;

/**
 * A cycle that is braked by a force set by hand: the power that is wanted has to be set as a force,
 * which depends on how fast the person pedals.
 *
 * @param travel how far the braked rim runs with one turn of the pedals
 * @param source where that comes from
 */
public record Brake(Quantity travel, Citation source) {

  /** The load that is wanted. */
  public static final String POWER = "power";

  /** The load that says how fast the person pedals. */
  public static final String PEDAL_RATE = "pedal_rate";

  /** The load that is set. */
  public static final String FORCE = "brake_force";

  private static final double SECONDS = 60;

  public Brake {
    requireNonNull(source, "source");
    requireNonNull(travel, "travel");
  }

  /** The brake force, in newtons, that makes a power in watts at so many turns a minute. */
  public double force(double watts, double rate) {
    return watts * SECONDS / (travel.base() * rate);
  }

  /** The power, in watts, that a brake force in newtons makes at so many turns a minute. */
  public double power(double newtons, double rate) {
    return newtons * travel.base() * rate / SECONDS;
  }
}
