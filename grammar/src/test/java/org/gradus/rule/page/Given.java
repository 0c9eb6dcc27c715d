package org.gradus.rule.page;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Symbol;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;

/**
 * Something that is given: {@code heart_rate = 138 bpm}, {@code earlier(heart_rate, 1 min) = 134
 * bpm ± 2 bpm}, {@code sex = male}, {@code systolic = unknown: too old, now}.
 */
record Given(String name, String value) {

  static Given of(String text) {
    String[] parts = text.split(" = ", 2);
    return new Given(parts[0].strip(), parts[1].strip());
  }

  /** The stages a line is drawn through: {@code stages x, y = 120 bpm, 20 mL/kg/min | ...}. */
  record Line(List<double[]> points) {}

  static Line line(String text) {
    List<double[]> points = new ArrayList<>();
    for (String stage : text.split(" = ", 2)[1].split("\\|", -1)) {
      double[] pair =
          Stream.of(stage.split(",", -1))
              .mapToDouble(part -> Names.quantity(part.strip()).base())
              .toArray();
      points.add(pair);
    }
    return new Line(points);
  }

  /** The names together with those that are only given, which have the kind of their value. */
  static Map<String, Symbol> with(List<String> givens, Map<String, Symbol> names) {
    Map<String, Symbol> all = new LinkedHashMap<>(names);
    for (String text : givens) {
      if (text.contains("(") || text.startsWith("stages ")) {
        continue;
      }
      Given given = of(text);
      Type type = given.isTruth() ? Type.CONDITION : new Type.Measure(given.kindOr());
      all.putIfAbsent(
          given.name(), new Symbol.Datum(Demand.value(given.name(), type), Symbol.Role.FACT));
    }
    return all;
  }

  private org.gradus.unit.Kind kindOr() {
    boolean figure = Character.isDigit(value.charAt(0)) || value.charAt(0) == '-';
    return figure ? quantity().kind() : org.gradus.unit.Kind.NUMBER;
  }

  boolean isTruth() {
    return value.equals("yes") || value.equals("no");
  }

  boolean isUnknown() {
    return value.startsWith("unknown");
  }

  Quantity quantity() {
    return Names.quantity(value.split(" ± ", 2)[0]);
  }

  double half() {
    String[] parts = value.split(" ± ", 2);
    return parts.length == 2 ? Names.quantity(parts[1]).base() : 0;
  }
}
