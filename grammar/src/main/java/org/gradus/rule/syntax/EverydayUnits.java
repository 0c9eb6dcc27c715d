package org.gradus.rule.syntax;

import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.gradus.unit.Unit;

/** How people write units that the language writes in one way only; for remedies. */
final class EverydayUnits {

  private static final Map<String, Unit> UNITS =
      Map.ofEntries(
          Map.entry("second", Unit.SECOND),
          Map.entry("sec", Unit.SECOND),
          Map.entry("minute", Unit.MINUTE),
          Map.entry("hour", Unit.HOUR),
          Map.entry("hr", Unit.HOUR),
          Map.entry("yr", Unit.YEAR),
          Map.entry("beat", Unit.BPM),
          Map.entry("beats/min", Unit.BPM),
          Map.entry("percent", Unit.PERCENT),
          Map.entry("kmh", Unit.KMH),
          Map.entry("kph", Unit.KMH),
          Map.entry("km/hr", Unit.KMH),
          Map.entry("mi/h", Unit.MPH),
          Map.entry("watt", Unit.WATT),
          Map.entry("pound", Unit.POUND),
          Map.entry("kilogram", Unit.KILOGRAM),
          Map.entry("metre", Unit.METRE),
          Map.entry("meter", Unit.METRE),
          Map.entry("ml/min/kg", Unit.ML_PER_KG_PER_MINUTE));

  private EverydayUnits() {}

  /** The spelling of the language for an everyday one, in one number or in many. */
  static Optional<String> meant(String text) {
    String plain = text.toLowerCase(Locale.ROOT);
    Unit unit = UNITS.get(plain);
    if (unit == null && plain.endsWith("s")) {
      unit = UNITS.get(plain.substring(0, plain.length() - 1));
    }
    return Optional.ofNullable(unit).map(Unit::symbol);
  }
}
