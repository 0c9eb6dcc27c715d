package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.gradus.cases.Cases;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;

/** The schemas, by which editors complete and check, know what the reader knows. */
class SchemaTest {

  private static final List<String> NAMES =
      List.of("common", "protocol", "rules", "equations", "norms", "intensity", "words", "cases");
  private static final List<String> LOADS =
      List.of("speed", "grade", "power", "pedal_rate", "step_height", "step_rate", "distance");
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final String NOBODYS = "zzqx";

  private static String text(String resource) {
    try (InputStream stream =
        Objects.requireNonNull(SchemaTest.class.getResourceAsStream(resource), resource)) {
      return new String(stream.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String schemaText(String name) {
    return text("/org/gradus/schema/" + name + ".schema.json");
  }

  private static Object yaml(String text) {
    return new Load(LoadSettings.builder().build()).loadFromString(text);
  }

  private static final String PLACE = "https://schema.test/";

  private static List<String> errors(String kind, Object content) {
    Map<String, String> schemas = new HashMap<>();
    NAMES.forEach(name -> schemas.put(PLACE + name + ".schema.json", schemaText(name)));
    SchemaRegistry registry =
        SchemaRegistry.withDefaultDialect(
            SpecificationVersion.DRAFT_2020_12, builder -> builder.schemas(schemas));
    Schema schema = registry.getSchema(SchemaLocation.of(PLACE + kind + ".schema.json"));
    JsonNode tree = JSON.valueToTree(content);
    return schema.validate(tree).stream().map(Object::toString).toList();
  }

  static Stream<SourceFile> files() {
    return Stream.concat(Bundled.files().stream(), Bundled.cases().stream());
  }

  @TestFactory
  Stream<DynamicTest> everyFileNamesItsSchemaAndFitsIt() {
    return files().map(file -> DynamicTest.dynamicTest(file.name(), () -> fits(file)));
  }

  private static void fits(SourceFile file) {
    Map<?, ?> content = (Map<?, ?>) yaml(file.text());
    String kind = String.valueOf(content.get("kind"));
    assertThat(file.text().lines().findFirst())
        .contains("# yaml-language-server: $schema=../schema/" + kind + ".schema.json");
    assertThat(errors(kind, content)).isEmpty();
  }

  /** A mapping with a key that nobody knows. */
  record Probe(String schema, String definition, String kind, String body) {

    Set<String> keysOfReader() {
      FileRefused refused =
          catchThrowableOfType(FileRefused.class, () -> read(SourceFile.of("probe.yaml", file())));
      String help =
          refused.diagnostics().stream()
              .map(Object::toString)
              .filter(problem -> problem.contains(NOBODYS + " is not a key of"))
              .findFirst()
              .orElseThrow();
      String keys = help.substring(help.indexOf("the keys are ") + "the keys are ".length());
      return new TreeSet<>(List.of(keys.strip().split(", ")));
    }

    private String file() {
      return kind.equals("cases")
          ? "format: 1\nkind: cases\nfor: probe\n" + body
          : "format: 1\nkind: " + kind + "\nid: probe\nversion: 1.0.0\ntitle: A probe\n" + body;
    }

    private void read(SourceFile file) {
      if (kind.equals("cases")) {
        Cases.read(file);
      } else {
        Library.of(List.of(file));
      }
    }

    Set<String> keysOfSchema() throws IOException {
      JsonNode whole = JSON.readTree(schemaText(schema));
      JsonNode node = definition.isEmpty() ? whole : whole.path("$defs").path(definition);
      Set<String> keys = new TreeSet<>();
      mapping(node).path("properties").fieldNames().forEachRemaining(keys::add);
      return keys;
    }
  }

  // A definition may allow a bare text besides.
  private static JsonNode mapping(JsonNode node) {
    for (JsonNode one : node.path("anyOf")) {
      if (one.has("properties")) {
        return one;
      }
    }
    return node;
  }

  static List<Probe> probes() {
    List<Probe> probes = new ArrayList<>();
    for (Object item : (List<?>) yaml(text("schema-probes.yaml"))) {
      Map<?, ?> keys = (Map<?, ?>) item;
      Object definition = keys.get("definition");
      probes.add(
          new Probe(
              String.valueOf(keys.get("schema")),
              definition == null ? "" : definition.toString(),
              String.valueOf(keys.get("kind")),
              String.valueOf(keys.get("body"))));
    }
    return probes;
  }

  @TestFactory
  Stream<DynamicTest> readerAndSchemaKnowTheSameKeys() {
    return probes().stream()
        .map(
            probe ->
                DynamicTest.dynamicTest(
                    probe.schema() + " " + probe.definition(),
                    () -> assertThat(probe.keysOfSchema()).isEqualTo(probe.keysOfReader())));
  }

  @Test
  void noClosedDefinitionIsWithoutAProbe() throws IOException {
    Set<String> probed = new TreeSet<>();
    probes().forEach(probe -> probed.add(probe.schema() + " " + probe.definition()));
    Set<String> closed = new TreeSet<>();
    for (String name : NAMES) {
      JsonNode whole = JSON.readTree(schemaText(name));
      if (whole.has("properties")) {
        closed.add(name + " ");
      }
      whole
          .path("$defs")
          .properties()
          .forEach(
              entry -> {
                JsonNode keys = mapping(entry.getValue());
                boolean choice =
                    keys.path("properties").has("series") || keys.path("properties").has("repeat");
                if (keys.has("properties") && keys.has("additionalProperties") && !choice) {
                  closed.add(name + " " + entry.getKey());
                }
              });
    }
    assertThat(probed).isEqualTo(closed);
  }

  @Test
  void noLoadTakesTheNameOfAKeyOfAStage() throws IOException {
    Set<String> keys = new TreeSet<>();
    JsonNode all = JSON.readTree(schemaText("common")).path("$defs");
    List<JsonNode> forms = new ArrayList<>();
    all.path("stage").path("anyOf").forEach(forms::add);
    List.of("single", "pause", "series", "block", "recovery_stage")
        .forEach(form -> forms.add(all.path(form)));
    forms.forEach(form -> form.path("properties").fieldNames().forEachRemaining(keys::add));
    keys.removeAll(LOADS);
    assertThat(keys).contains("lasts", "stage_end", "series");
    for (String key : keys) {
      String declares = "loads: { " + key + ": { unit: W, range: 0 W to 9 W } }";
      SourceFile file =
          SourceFile.of(
              "set.yaml",
              "format: 1\nkind: rules\nid: set\nversion: 1.0.0\ntitle: A set\n" + declares);
      assertThatThrownBy(() -> Library.of(List.of(file)))
          .describedAs(key)
          .hasMessageContaining(key + " is not a");
    }
  }

  @Test
  void aMisspeltKeyDoesNotFit() {
    String walk = Parts.named("graded-walk-standard.yaml").text();
    assertThat(errors("protocol", yaml(walk))).isEmpty();
    assertThat(errors("protocol", yaml(walk.replace("valid_for:", "vaild_for:")))).isNotEmpty();
    assertThat(errors("protocol", yaml(walk.replace("purpose: submaximal", "purpose: low"))))
        .isNotEmpty();
  }
}
