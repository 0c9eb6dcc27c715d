package org.gradus.knowledge;

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
    minutes = Map.copyOf(minutes);
  }

  /** The time in a band, if it is all spent there. */
  public Optional<Quantity> in(String band) {
    return Optional.ofNullable(minutes.get(band));
  }
}
