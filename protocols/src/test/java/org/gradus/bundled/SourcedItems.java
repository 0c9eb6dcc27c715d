package org.gradus.bundled;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.gradus.diagnostic.SourceFile;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;

/**
 * Everything in a file that is a rule or carries a figure. The file is read here by a general YAML
 * reader, so that nothing the library passes over is missed.
 */
final class SourcedItems {

  private static final List<String> RULES = List.of("any_time", "stage_end", "rules", "result");
  private static final List<String> NAMED =
      List.of("settings", "define", "tables", "inputs", "signals", "loads", "scales");
  private static final List<String> LISTED =
      List.of(
          "estimates",
          "results",
          "costs",
          "max_heart_rates",
          "spreads",
          "repeats",
          "energy",
          "bands",
          "methods",
          "tables");
  private static final List<String> LOADS =
      List.of("speed", "grade", "power", "pedal_rate", "step_height", "step_rate", "distance");

  /** An item and where it stands. */
  record Item(String path, Object content) {

    /** The keys of its sources; none when it has none, or lacks one of several. */
    List<String> sources() {
      if (!(content instanceof Map<?, ?> map)) {
        return List.of();
      } else if (map.get("source") != null) {
        return List.of(map.get("source").toString());
      }
      List<String> sources = new ArrayList<>();
      if (map.get("options") instanceof List<?> options) {
        for (Object option : options) {
          if (!(option instanceof Map<?, ?> keys) || keys.get("source") == null) {
            return List.of();
          }
          sources.add(keys.get("source").toString());
        }
      }
      return sources;
    }
  }

  private final List<Item> items = new ArrayList<>();
  private final Map<?, ?> content;

  private SourcedItems(SourceFile file) {
    Load reader = new Load(LoadSettings.builder().build());
    content = (Map<?, ?>) reader.loadFromString(file.text());
    walk(content, "");
  }

  static SourcedItems of(SourceFile file) {
    return new SourcedItems(file);
  }

  List<Item> all() {
    return items;
  }

  /** The citation under a key of the file; the key itself where it is none. */
  String citation(String key) {
    return content.get("sources") instanceof Map<?, ?> sources && sources.containsKey(key)
        ? sources.get(key).toString()
        : key;
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
    boolean listed = RULES.contains(key) || LISTED.contains(key);
    if (listed && value instanceof List<?> list) {
      // Bands name the equations of energy by their ids alone.
      boolean names = key.equals("energy") && list.stream().allMatch(String.class::isInstance);
      list.stream().filter(item -> !names).forEach(item -> items.add(new Item(path, item)));
    } else if (key.equals("stages") && value instanceof List<?> stages) {
      stages.forEach(stage -> stage(stage, path));
    } else if (NAMED.contains(key) && value instanceof Map<?, ?> named) {
      named.forEach((name, item) -> items.add(new Item(path + "/" + name, item)));
    } else if (key.equals("error")) {
      items.add(new Item(path, value));
    }
    walk(value, path);
  }

  // A stage without load prescribes nothing.
  private void stage(Object stage, String path) {
    Object one =
        stage instanceof Map<?, ?> map && map.containsKey("series") ? map.get("series") : stage;
    if (one instanceof Map<?, ?> keys && LOADS.stream().anyMatch(keys::containsKey)) {
      items.add(new Item(path, one));
    }
  }
}
