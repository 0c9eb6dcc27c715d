package org.gradus.knowledge;

import static java.util.Objects.requireNonNull;

import java.util.Map;
import java.util.Optional;
import org.gradus.unit.Quantity;
import org.gradus.unit.QuantityRange;

/**
 * How much exercise a week a publication recommends.
 *
 * @param metMinutes MET times minutes
 * @param minutes the time in each band, if it is all spent there
 * @param source its citation
 */
public record WeeklyVolume(
    QuantityRange metMinutes, Map<String, Quantity> minutes, Citation source) {

  public WeeklyVolume {
    requireNonNull(metMinutes, "metMinutes");
    requireNonNull(minutes, "minutes");
    requireNonNull(source, "source");
    minutes = Map.copyOf(minutes);
  }

  /** The time in a band, if it is all spent there. */
  public Optional<Quantity> in(String band) {
    requireNonNull(band, "band");
    return Optional.ofNullable(minutes.get(band));
  }
}
