package org.gradus.knowledge;

import static java.util.Objects.requireNonNull;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.answer.Gap.Cause;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.check.Layout;
import org.gradus.rule.plan.Frame;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;

/**
 * Values by the names that formulas of knowledge files use: {@code mass}, {@code speed}, {@code
 * resting.heart_rate}. A condition is 1 or 0, a choice the index of its word. What has no value is
 * not known.
 *
 * @param values in base units
 */
public record Given(Map<String, Double> values) {

  /** Nothing is known. */
  public static final Given NOTHING = new Given(Map.of());

  public Given {
    requireNonNull(values, "values");
    values = Map.copyOf(values);
  }

  /** With one more value, or another one. */
  public Given with(String name, double base) {
    requireNonNull(name, "name");
    Map<String, Double> more = new LinkedHashMap<>(values);
    more.put(name, base);
    return new Given(more);
  }

  /** With one more quantity, or another one. */
  public Given with(String name, Quantity quantity) {
    return with(name, quantity.base());
  }

  /** With a quantity, if there is one. */
  public Given with(String name, Optional<Quantity> quantity) {
    requireNonNull(name, "name");
    return quantity.map(value -> with(name, value)).orElse(this);
  }

  /**
   * With values that a host gives.
   *
   * @param known the names there are, with their kinds
   * @throws ReadingRefused when a value has another name or is of another kind
   */
  public Given with(Map<String, Quantity> given, Map<String, Kind> known) {
    requireNonNull(known, "known");
    Map<String, Double> more = new LinkedHashMap<>(values);
    for (Map.Entry<String, Quantity> value : given.entrySet()) {
      more.put(value.getKey(), checked(value.getKey(), value.getValue(), known).base());
    }
    return new Given(more);
  }

  private static Quantity checked(String name, Quantity value, Map<String, Kind> known) {
    Kind kind = known.get(name);
    if (kind == null) {
      throw new ReadingRefused(
          Code.G508,
          name,
          value.toString(),
          "names are " + String.join(", ", new TreeSet<>(known.keySet())));
    } else if (kind != value.kind()) {
      throw new ReadingRefused(
          Code.G508,
          name,
          value.toString(),
          "it takes " + kind.phrase() + ", as in " + kind.base());
    }
    return value;
  }

  /** Whether a name has a value. */
  public boolean has(String name) {
    requireNonNull(name, "name");
    return values.containsKey(name);
  }

  /** The values in the slots of a layout. */
  Frame frame(Layout layout) {
    Frame frame = new Frame(layout);
    List<Demand> demands = layout.demands();
    for (int slot = 0; slot < demands.size(); slot++) {
      Double value = values.get(demands.get(slot).subject());
      if (value != null && demands.get(slot).aspect() == Aspect.VALUE) {
        frame.set(slot, value, 0);
      } else {
        frame.miss(slot, Gap.now(demands.get(slot).subject(), Cause.NOT_ANSWERED));
      }
    }
    return frame;
  }
}
