package org.gradus.library;

import java.util.LinkedHashMap;
import java.util.Map;
import org.gradus.protocol.Attribute;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Symbol;
import org.gradus.rule.check.Vocabulary;
import org.gradus.unit.Kind;
import org.gradus.unit.Type;

/**
 * The names that texts of knowledge files may use: what is known of a person and a few more. They
 * are no test's, so that such a file can be checked without a protocol that uses it.
 */
final class PersonNames {

  private PersonNames() {}

  /** What is known of a person. */
  static Vocabulary alone() {
    return with(Map.of());
  }

  /** What is known of a person, and the loads of ergometers. */
  static Vocabulary withLoads(Equipment equipment) {
    return with(equipment.kinds());
  }

  /** The kinds of all of these that are measures, by name. */
  static Map<String, Kind> measures(Equipment equipment) {
    Map<String, Kind> measures = equipment.kinds();
    for (Attribute attribute : Attribute.values()) {
      if (attribute.type() instanceof Type.Measure measure) {
        measures.put(attribute.word(), measure.kind());
      }
    }
    return measures;
  }

  /** What is known of a person, and further values. */
  static Vocabulary with(Map<String, Kind> further) {
    Map<String, Symbol> symbols = new LinkedHashMap<>();
    for (Attribute attribute : Attribute.values()) {
      symbols.put(attribute.word(), fact(attribute.word(), attribute.type()));
    }
    further.forEach((name, kind) -> symbols.put(name, fact(name, new Type.Measure(kind))));
    return Vocabulary.of(symbols);
  }

  private static Symbol fact(String name, Type type) {
    return new Symbol.Datum(Demand.value(name, type), Symbol.Role.FACT);
  }
}
