package org.gradus.knowledge;

import static java.util.Objects.requireNonNull;

import java.util.Map;
import java.util.Optional;

/**
 * A band of exercise intensity, as it is printed.
 *
 * @param id its name: {@code moderate}
 * @param extents what it is by each measure the table prints
 * @param source its citation
 */
public record Band(String id, Map<Measure, Extent> extents, Citation source) {

  /** What intensity is measured by. */
  public enum Measure {
    /** Share of the reserve between rest and maximum, of heart rate or of uptake. */
    RESERVE,
    /** Share of the maximal heart rate. */
    MAX_HEART_RATE,
    /** Share of the aerobic capacity. */
    VO2MAX,
    /** Rating of perceived exertion. */
    RPE,
    /** Uptake in MET, whoever it is. */
    MET
  }

  public Band {
    requireNonNull(extents, "extents");
    requireNonNull(id, "id");
    requireNonNull(source, "source");
    extents = Map.copyOf(extents);
  }

  /** What the band is by a measure, if the table prints it. */
  public Optional<Extent> by(Measure measure) {
    requireNonNull(measure, "measure");
    return Optional.ofNullable(extents.get(measure));
  }
}
