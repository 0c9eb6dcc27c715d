package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.StringLength;
import org.gradus.history.Json;
import org.junit.jupiter.api.Test;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;

/** What is written as JSON, read by parsers of others: one of JSON, one of YAML. */
class JsonTest {

  private static final ObjectMapper MAPPER = new ObjectMapper();

  @Test
  void everyKindOfValueHasItsForm() {
    Map<String, Object> all = new LinkedHashMap<>();
    all.put("text", "a \"b\"\\\n\u2028é");
    all.put("numbers", List.of(1, 2.5, 12_345_678_901L, 1e20));
    all.put("none", List.of(Double.NaN, Double.POSITIVE_INFINITY, Float.NaN));
    all.put("truth", true);
    all.put("empty", List.of(Map.of(), List.of()));
    assertThat(Json.write(all))
        .isEqualTo(
            "{\"text\": \"a \\u0022b\\u0022\\u005c\\u000a\\u2028\\u00e9\","
                + " \"numbers\": [1, 2.5, 12345678901, 1.0E20], \"none\": [null, null, null],"
                + " \"truth\": true, \"empty\": [{}, []]}");
  }

  @Property(tries = 100)
  void whatIsWrittenIsReadAsItWas(
      @ForAll Map<@StringLength(max = 150) String, List<String>> texts,
      @ForAll double number,
      @ForAll boolean truth)
      throws Exception {
    Map<String, Object> all = new LinkedHashMap<>();
    all.put("texts", texts);
    all.put("number", number);
    all.put("truth", truth);
    String line = Json.write(all);
    assertThat(line).matches("\\p{ASCII}*").doesNotContain("\n");
    JsonNode read = MAPPER.readTree(line);
    JsonNode expected = MAPPER.valueToTree(all);
    assertThat(read).isEqualTo(expected);
    Object yaml = new Load(LoadSettings.builder().build()).loadFromString(line);
    assertThat(((Map<?, ?>) yaml).get("texts")).isEqualTo(texts);
  }
}
