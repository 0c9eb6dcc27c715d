package org.gradus.exchange.fhir;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.gradus.unit.Quantity;

/** Small parts of resources. */
final class BundleParts {

  // A record system wants no more digits than a reading has; a computed load may have many.
  private static final int DECIMALS = 4;

  private BundleParts() {}

  /** A map of names and values in this order. */
  static Map<String, Object> map(Object... namesAndValues) {
    Map<String, Object> map = new LinkedHashMap<>();
    for (int i = 0; i < namesAndValues.length; i += 2) {
      map.put(namesAndValues[i].toString(), namesAndValues[i + 1]);
    }
    return map;
  }

  static Map<String, Object> quantity(Quantity quantity, Codes codes) {
    return map(
        "value",
        number(quantity.amount()),
        "unit",
        quantity.unit().symbol().isEmpty() ? "1" : quantity.unit().symbol(),
        "system",
        Codes.UCUM,
        "code",
        codes.ucum(quantity.unit()));
  }

  static BigDecimal number(double amount) {
    BigDecimal rounded =
        BigDecimal.valueOf(amount)
            .setScale(DECIMALS, java.math.RoundingMode.HALF_UP)
            .stripTrailingZeros();
    return rounded.scale() < 0 ? rounded.setScale(0) : rounded;
  }

  static Map<String, Object> reference(String url) {
    return map("reference", url);
  }

  static Map<String, Object> words(String text) {
    return map("text", text);
  }

  static Map<String, Object> component(Map<String, Object> code, String type, Object value) {
    return map("code", code, type, value);
  }

  static String instant(OffsetDateTime start, Duration at) {
    return start
        .plus(at)
        .format(DateTimeFormatter.ISO_OFFSET_DATE_TIME.withZone(start.getOffset()));
  }

  static List<Map<String, Object>> category(String code) {
    return List.of(
        map(
            "coding",
            List.of(
                map(
                    "system",
                    "http://terminology.hl7.org/CodeSystem/observation-category",
                    "code",
                    code))));
  }
}
