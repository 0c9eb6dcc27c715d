package org.gradus.internal.json;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** JSON within limits; the texts of records and bundles go through it in many other tests. */
class JsonReaderTest {

  private static final JsonLimits NARROW = new JsonLimits(2, 60, false, Long::valueOf);
  private static final JsonLimits WIDE = new JsonLimits(64, 1000, true, BigDecimal::new);

  @Test
  void valuesAreReadAsTheyStand() {
    assertThat(JsonReader.read(" {\"a\": [1, true, \"x\\u0041\\n\"]} ", NARROW))
        .isEqualTo(Map.of("a", List.of(1L, true, "xA\n")));
    assertThat(JsonReader.read("[null, -1.50e2]", WIDE))
        .isEqualTo(List.of(JsonReader.NULL, new BigDecimal("-1.50e2")));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      textBlock =
          """
          [null]             | at character 2 expected a value
          [[[1]]]            | at character 3 expected no more than 2 levels
          {"a": 1, "a": 2}   | at character 16 expected no second value of a
          [01]               | at character 2 expected a value
          ["\\x"]            | at character 5 expected an escape of JSON
          ["\\u00g0"]        | at character 7 expected four hexadecimal digits
          [1] 2              | at character 5 expected nothing more
          [1                 | at character 3 expected more
          {a: 1}             | at character 2 expected a name in quotes
          {"a" 1}            | at character 6 expected a colon
          [1e99999]          | at character 2 expected a value
          [1 2]              | at character 4 expected a comma or ]
          """)
  void whatIsNoJsonIsRefusedWithItsPlace(String text, String message) {
    assertThatExceptionOfType(NotJson.class)
        .isThrownBy(() -> JsonReader.read(text, NARROW))
        .withMessage(message);
  }

  @Test
  void aLongTextIsRefusedBeforeItIsRead() {
    assertThatExceptionOfType(NotJson.class)
        .isThrownBy(() -> JsonReader.read(" ".repeat(61), NARROW))
        .withMessage("it has more than 60 characters");
    assertThatExceptionOfType(NotJson.class)
        .isThrownBy(() -> JsonReader.read("[".repeat(65), WIDE))
        .withMessageContaining("no more than 64 levels");
  }
}
