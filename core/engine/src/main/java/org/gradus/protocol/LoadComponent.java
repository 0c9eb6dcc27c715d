package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import org.gradus.knowledge.Citation;
import org.gradus.unit.Kind;
import org.gradus.unit.Unit;

/**
 * One component of a load, as a file declares it: a speed, a power, a stroke rate.
 *
 * @param name the key under which stages set it, and its name in rules: {@code stroke_rate}
 * @param title what reports and lists call it: {@code Stroke rate}
 * @param unit the unit in which it is shown where a stage does not name one; it gives the kind
 * @param source who says so
 */
public record LoadComponent(String name, String title, Unit unit, Citation source) {
  public LoadComponent {
    requireNonNull(name, "name");
    requireNonNull(source, "source");
    requireNonNull(title, "title");
    requireNonNull(unit, "unit");
  }

  /** What it is a measure of. */
  public Kind kind() {
    return unit.kind();
  }
}
