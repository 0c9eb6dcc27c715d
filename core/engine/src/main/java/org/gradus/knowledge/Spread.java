package org.gradus.knowledge;

import static java.util.Objects.requireNonNull;

import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;

/**
 * How much readings of one kind differ when nothing about the person or the load does.
 *
 * @param id its name: {@code heart_rate_day_to_day}
 * @param of the kind of the readings
 * @param sd the standard deviation, as a share of the reading in % or in units of its kind
 * @param per what all readings of which differ alike
 * @param source its citation
 */
public record Spread(String id, Kind of, Quantity sd, Per per, Citation source) {
  public Spread {
    requireNonNull(id, "id");
    requireNonNull(of, "of");
    requireNonNull(per, "per");
    requireNonNull(sd, "sd");
    requireNonNull(source, "source");
  }

  /** What all readings differ alike in. */
  public enum Per {
    /** The whole test: the heart is faster today, at every stage. */
    TEST,
    /** One reading: each differs for itself. */
    READING
  }

  /** The standard deviation at a reading, in the base unit of its kind. */
  public double at(double reading) {
    return sd.kind() == Kind.NUMBER ? sd.base() * Math.abs(reading) : sd.base();
  }
}
