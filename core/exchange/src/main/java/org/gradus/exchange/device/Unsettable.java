package org.gradus.exchange.device;

import static java.util.Objects.requireNonNull;

/**
 * A component of a load that a machine cannot set.
 *
 * @param stage the stage, or empty where a single load was asked about
 * @param component the component: {@code "speed"}; {@code "load"} where nothing is known of it yet
 * @param reason why, with what the machine can set
 */
public record Unsettable(String stage, String component, String reason) {
  public Unsettable {
    requireNonNull(component, "component");
    requireNonNull(reason, "reason");
    requireNonNull(stage, "stage");
  }

  /** In one line: {@code "walk_7: speed: 6 mph lies outside 1 km/h to 9 km/h by 0.1 km/h"}. */
  @Override
  public String toString() {
    return (stage.isEmpty() ? "" : stage + ": ") + component + ": " + reason;
  }
}
