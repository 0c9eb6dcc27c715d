package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.gradus.diagnostic.SourceFile;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;

/**
 * Everything in a file that is a rule or carries a figure names its source on the same item. The
 * files are read here by a general YAML reader, so that nothing the library passes over is missed.
 */
class SourcesTest {

  private static final List<String> RULES = List.of("any_time", "stage_end", "rules", "result");
  private static final List<String> NAMED =
      List.of("settings", "define", "tables", "inputs", "signals", "scales");
  private static final List<String> LISTED = List.of("estimates", "costs", "max_heart_rates");

  private final List<String> unsourced = new ArrayList<>();

  @TestFactory
  List<DynamicTest> everyItemNamesItsSource() {
    return Bundled.files().stream()
        .map(file -> DynamicTest.dynamicTest(file.name(), () -> check(file)))
        .toList();
  }

  private void check(SourceFile file) {
    unsourced.clear();
    Map<?, ?> content =
        (Map<?, ?>) new Load(LoadSettings.builder().build()).loadFromString(file.text());
    walk(content, "");
    assertThat(unsourced).as("items of %s without a source", file.name()).isEmpty();
  }

  private void walk(Object node, String path) {
    if (node instanceof Map<?, ?> map) {
      map.forEach((key, value) -> entry(key.toString(), value, path + "/" + key));
    } else if (node instanceof List<?> list) {
      for (int i = 0; i < list.size(); i++) {
        walk(list.get(i), path + "[" + i + "]");
      }
    }
  }

  private void entry(String key, Object value, String path) {
    if (RULES.contains(key) && value instanceof List<?> rules) {
      rules.forEach(rule -> needed(rule, path));
    } else if (NAMED.contains(key) && value instanceof Map<?, ?> named) {
      named.forEach((name, item) -> needed(item, path + "/" + name));
    } else if (LISTED.contains(key) && value instanceof List<?> items) {
      items.forEach(item -> needed(item, path));
    } else if (key.equals("error")) {
      needed(value, path);
    }
    walk(value, path);
  }

  private void needed(Object item, String path) {
    boolean sourced = item instanceof Map<?, ?> map && (hasSource(map) || hasSources(map));
    if (!sourced) {
      unsourced.add(path + ": " + item);
    }
  }

  private static boolean hasSource(Map<?, ?> item) {
    return item.containsKey("source");
  }

  private static boolean hasSources(Map<?, ?> setting) {
    return setting.get("options") instanceof List<?> options
        && options.stream().allMatch(o -> o instanceof Map<?, ?> option && hasSource(option));
  }
}
