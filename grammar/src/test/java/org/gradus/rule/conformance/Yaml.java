package org.gradus.rule.conformance;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URISyntaxException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.schema.FailsafeSchema;

/** Reads the YAML files of this package. Every scalar is a text: 2:30 and yes mean nothing yet. */
final class Yaml {

  private static final LoadSettings SETTINGS =
      LoadSettings.builder()
          .setSchema(new FailsafeSchema())
          .setAllowDuplicateKeys(false)
          .setMaxAliasesForCollections(0)
          .build();

  private Yaml() {}

  /** All files of the package, by name. */
  static List<Path> files() {
    try (Stream<Path> files = Files.list(folder())) {
      return files.filter(file -> file.toString().endsWith(".yaml")).sorted().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static Path folder() {
    try {
      return Path.of(
              Objects.requireNonNull(Yaml.class.getResource("names.yaml"), "names.yaml").toURI())
          .resolveSibling("");
    } catch (URISyntaxException e) {
      throw new IllegalStateException(e);
    }
  }

  static Map<String, Object> read(Path file) {
    try {
      return map(new Load(SETTINGS).loadFromString(Files.readString(file)));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (RuntimeException e) {
      throw new IllegalStateException("in " + file.getFileName() + ": " + e.getMessage(), e);
    }
  }

  static Map<String, Object> map(Object node) {
    if (!(node instanceof Map<?, ?> entries)) {
      throw new IllegalArgumentException("not a mapping: " + node);
    }
    Map<String, Object> read = new LinkedHashMap<>();
    entries.forEach((key, value) -> read.put(text(key), Objects.requireNonNull(value)));
    return read;
  }

  static List<Object> list(Object node) {
    return node instanceof List<?> items ? List.copyOf(items) : List.of(node);
  }

  static String text(Object node) {
    if (!(node instanceof String text)) {
      throw new IllegalArgumentException("not a text: " + node);
    }
    return text;
  }

  static Map<String, String> texts(Object node) {
    Map<String, String> read = new LinkedHashMap<>();
    map(node).forEach((key, value) -> read.put(key, text(value)));
    return read;
  }
}
