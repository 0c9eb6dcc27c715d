package org.gradus.trial;

import java.util.EnumMap;
import java.util.Map;

/** What one virtual person is like, in base units. Immutable. */
final class Traits {

  private final Map<Trait, Double> values;

  /**
   * @param values all of them
   */
  Traits(Map<Trait, Double> values) {
    this.values = new EnumMap<>(values);
  }

  double of(Trait trait) {
    Double value = values.get(trait);
    if (value == null) {
      throw new IllegalArgumentException("not drawn: " + trait);
    }
    return value;
  }
}
