package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;
import org.gradus.knowledge.Citation;

/**
 * What a test is done on, as a file declares it.
 *
 * @param id {@code treadmill}, {@code leg-cycle}, {@code pool}
 * @param title what reports and lists call it
 * @param loads the components of a load that can be set on it, so that a stage with another one is
 *     refused when its file loads; none: any
 * @param posture how the person is placed where a stage does not say so
 * @param carriesBodyMass whether the person carries the body, so that the effort grows with body
 *     mass: on a treadmill, not on a cycle
 * @param source who says so
 */
public record Ergometer(
    String id,
    String title,
    List<String> loads,
    Optional<String> posture,
    boolean carriesBodyMass,
    Citation source) {
  public Ergometer {
    requireNonNull(id, "id");
    requireNonNull(loads, "loads");
    requireNonNull(posture, "posture");
    requireNonNull(source, "source");
    requireNonNull(title, "title");
    loads = List.copyOf(loads);
  }
}
