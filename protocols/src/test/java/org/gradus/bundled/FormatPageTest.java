package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.junit.jupiter.api.Test;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;

/**
 * The page of every key of every kind of file. It is made of the schemas, which {@code SchemaTest}
 * holds to the reader, and of files that load.
 */
class FormatPageTest {

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final Path PAGE = Path.of("FORMAT.md");
  private static final List<String> KINDS =
      List.of("protocol", "rules", "equations", "norms", "intensity", "words", "cases");
  private static final int LONGEST_EXAMPLE = 170;

  private final Map<String, JsonNode> schemas = new LinkedHashMap<>();
  // The example of a mapping: the one with the most keys that fits into a line.
  private final Map<String, JsonNode> examples = new TreeMap<>();

  private JsonNode schema(String name) {
    return schemas.computeIfAbsent(
        name,
        file -> {
          try (InputStream stream =
              Objects.requireNonNull(
                  FormatPageTest.class.getResourceAsStream(
                      "/org/gradus/schema/" + file + ".schema.json"))) {
            return JSON.readTree(stream);
          } catch (IOException e) {
            throw new IllegalStateException(e);
          }
        });
  }

  /** A place in the schemas: the file and the definition, which is empty for the file itself. */
  private record Place(String file, String name) {
    static Place of(String file, String reference) {
      int hash = reference.indexOf('#');
      String other = hash == 0 ? file : reference.substring(0, hash).replace(".schema.json", "");
      return new Place(other, reference.substring(reference.lastIndexOf('/') + 1));
    }
  }

  private JsonNode node(Place place) {
    JsonNode schema = schema(place.file());
    return place.name().isEmpty() ? schema : schema.path("$defs").path(place.name());
  }

  private String page() {
    examples();
    StringBuilder out = new StringBuilder();
    out.append(
        """
        # Every key of every kind of file
        This page is made of the schemas in [src/main/resources/org/gradus/schema](src/main/resources/org/gradus/schema) and of files that load; a test holds it to them, and them to the reader. [README.md](README.md) shows a protocol from nothing, [LANGUAGE.md](../grammar/LANGUAGE.md) says what a rule or a value can say.

        A file is YAML: keys with values, lists, and texts. Where a key takes a list, one item may stand without one. A key that is not listed here is refused with the keys that are known (G302), one that is needed and missing by name (G303), a value of another shape (G304) or that does not fit (G305) with what would do. Each example stands in a file that loads.

        """);
    for (String kind : KINDS) {
      out.append("## A file of the kind `").append(kind).append("`\n");
      section(new Place(kind, ""), out);
      Set<String> own = new TreeSet<>();
      schema(kind).path("$defs").fieldNames().forEachRemaining(own::add);
      for (String name : own) {
        definition(new Place(kind, name), out);
      }
    }
    out.append("## Parts that files have in common\n");
    Set<String> common = new TreeSet<>();
    schema("common").path("$defs").fieldNames().forEachRemaining(common::add);
    for (String name : common) {
      definition(new Place("common", name), out);
    }
    return out.toString();
  }

  private void definition(Place place, StringBuilder out) {
    if (keys(place).isEmpty()) {
      return;
    }
    out.append("### ").append(title(place)).append('\n');
    section(place, out);
  }

  private static String title(Place place) {
    String words = place.name().replace('_', ' ');
    return place.file().equals("common") ? words : words + " of " + place.file();
  }

  // Some may also be a single text: their keys are those of the mapping among the choices.
  private JsonNode mapping(Place place) {
    JsonNode node = node(place);
    if (node.has("properties")) {
      return node;
    }
    for (JsonNode choice : node.path("anyOf")) {
      if (choice.has("properties")) {
        return choice;
      }
    }
    return node;
  }

  private Map<String, JsonNode> keys(Place place) {
    Map<String, JsonNode> keys = new LinkedHashMap<>();
    mapping(place).path("properties").properties().forEach(e -> keys.put(e.getKey(), e.getValue()));
    return keys;
  }

  private void section(Place place, StringBuilder out) {
    String about = node(place).path("description").asText("");
    if (!about.isEmpty()) {
      out.append(about).append("\n\n");
    }
    Set<String> needed = new TreeSet<>();
    mapping(place).path("required").forEach(key -> needed.add(key.asText()));
    out.append("| key | what it takes | meaning |\n|---|---|---|\n");
    keys(place)
        .forEach(
            (key, value) ->
                out.append("| `")
                    .append(key)
                    .append(needed.contains(key) ? "`, needed | " : "` | ")
                    .append(shape(place.file(), value))
                    .append(" | ")
                    .append(value.path("description").asText("").replace("|", "\\|"))
                    .append(
                        value.has("default")
                            ? " Default: `" + value.path("default").asText() + "`."
                            : "")
                    .append(" |\n"));
    JsonNode other = mapping(place).path("additionalProperties");
    if (other.isObject()) {
      out.append("| *any other* | ")
          .append(shape(place.file(), other))
          .append(" | ")
          .append(other.path("description").asText(""))
          .append(" |\n");
    }
    Optional.ofNullable(examples.get(id(place)))
        .ifPresent(found -> out.append("\n```yaml\n").append(flow(found)).append("\n```\n"));
    out.append('\n');
  }

  private static String id(Place place) {
    return place.file() + " " + place.name();
  }

  private String shape(String file, JsonNode value) {
    if (value.has("enum") || value.has("const")) {
      Set<String> words = new LinkedHashSet<>();
      value.path("enum").forEach(word -> words.add("`" + word.asText() + "`"));
      if (value.has("const")) {
        words.add("`" + value.path("const").asText() + "`");
      }
      words.removeAll(Set.of("`true`", "`false`", "`1.0`"));
      return String.join(", ", words);
    } else if (value.has("$ref")) {
      return reference(Place.of(file, value.path("$ref").asText()));
    } else if (value.has("anyOf")) {
      List<String> choices = new ArrayList<>();
      value.path("anyOf").forEach(choice -> choices.add(shape(file, choice)));
      return String.join(" or ", choices);
    } else if (value.path("type").asText().equals("array")) {
      return "list of " + shape(file, value.path("items"));
    } else if (value.path("additionalProperties").isObject()) {
      return "names, each with " + shape(file, value.path("additionalProperties"));
    }
    return value.path("type").asText("keys").equals("object") ? "keys with values" : "text";
  }

  private String reference(Place place) {
    if (!keys(place).isEmpty()) {
      String anchor = title(place).replace(' ', '-').toLowerCase(Locale.ROOT);
      return "[" + place.name().replace('_', ' ') + "](#" + anchor + ")";
    }
    return switch (place.name()) {
      case "texts" -> "text or list of texts";
      case "stage" -> choices(place);
      default -> place.name().equals("name") ? "name" : "text";
    };
  }

  private String choices(Place place) {
    List<String> all = new ArrayList<>();
    node(place).path("anyOf").forEach(choice -> all.add(shape(place.file(), choice)));
    return all.isEmpty() ? "text" : String.join(", ", all);
  }

  // Every mapping of every file that loads, by the place of the schema that it is of.
  private void examples() {
    List<SourceFile> files = new ArrayList<>(Bundled.files());
    files.addAll(Laboratory.files());
    files.addAll(Bundled.cases());
    for (SourceFile file : files) {
      JsonNode root =
          JSON.valueToTree(new Load(LoadSettings.builder().build()).loadFromString(file.text()));
      String kind = root.path("kind").asText();
      if (KINDS.contains(kind)) {
        visit(new Place(kind, ""), node(new Place(kind, "")), root, kind);
      }
    }
  }

  private void visit(Place place, JsonNode schema, JsonNode value, String file) {
    if (schema.has("$ref")) {
      Place next = Place.of(file, schema.path("$ref").asText());
      visit(next, node(next), value, next.file());
    } else if (schema.has("anyOf")) {
      schema.path("anyOf").forEach(choice -> visit(place, choice, value, file));
    } else if (value.isArray()) {
      value.forEach(item -> visit(place, schema.path("items"), item, file));
    } else if (value.isObject() && schema.has("properties") && fits(schema, value)) {
      if (!place.name().isEmpty()) {
        examples.merge(id(place), value, FormatPageTest::better);
      }
      value
          .properties()
          .forEach(
              entry -> {
                JsonNode inner = schema.path("properties").path(entry.getKey());
                JsonNode known =
                    inner.isMissingNode() ? schema.path("additionalProperties") : inner;
                visit(place, known, entry.getValue(), file);
              });
    } else if (value.isObject() && schema.path("additionalProperties").isObject()) {
      value.forEach(item -> visit(place, schema.path("additionalProperties"), item, file));
    }
  }

  private static boolean fits(JsonNode schema, JsonNode value) {
    Set<String> names = new TreeSet<>();
    value.fieldNames().forEachRemaining(names::add);
    boolean open = schema.path("additionalProperties").isObject();
    boolean needed = true;
    for (JsonNode key : schema.path("required")) {
      needed &= names.contains(key.asText());
    }
    // A former name of an equation is no example of how to write one.
    boolean old = names.contains("replaces");
    return needed && !old && (open || names.stream().allMatch(schema.path("properties")::has));
  }

  private static JsonNode better(JsonNode one, JsonNode other) {
    Comparator<JsonNode> order =
        Comparator.comparing((JsonNode node) -> flow(node).length() <= LONGEST_EXAMPLE)
            .thenComparing(
                node ->
                    flow(node).length() <= LONGEST_EXAMPLE ? node.size() : -flow(node).length());
    return order.compare(other, one) > 0 ? other : one;
  }

  private static String flow(JsonNode node) {
    if (node.isObject()) {
      List<String> parts = new ArrayList<>();
      node.properties().forEach(e -> parts.add(e.getKey() + ": " + flow(e.getValue())));
      return "{ " + String.join(", ", parts) + " }";
    } else if (node.isArray()) {
      List<String> parts = new ArrayList<>();
      node.forEach(item -> parts.add(flow(item)));
      return "[" + String.join(", ", parts) + "]";
    }
    String text = node.asText().replaceAll("\\s+", " ").strip();
    boolean plain = text.matches("[A-Za-z0-9(_.][^,\\[\\]{}:#\"]*") && !text.isEmpty();
    return plain ? text : "\"" + text.replace("\"", "\\\"") + "\"";
  }

  @Test
  void thePageIsMadeOfTheSchemasAndOfFilesThatLoad() throws IOException {
    String page = page().strip() + "\n";
    Path made = Path.of("target", "FORMAT.md");
    Files.createDirectories(Path.of("target"));
    Files.writeString(made, page);
    assertThat(Files.readString(PAGE))
        .as("if it is meant: cp protocols/target/FORMAT.md protocols/FORMAT.md")
        .isEqualTo(page);
  }

  @Test
  void everyMappingHasAnExampleThatYamlReads() {
    String page = page();
    for (String part : page.split("```yaml\n", -1)) {
      if (part.contains("\n```")) {
        String example = part.substring(0, part.indexOf("\n```"));
        assertThat(new Load(LoadSettings.builder().build()).loadFromString(example))
            .as(example)
            .isInstanceOf(Map.class);
      }
    }
    assertThat(page.split("```yaml", -1).length).isGreaterThan(45);
  }

  // What stands as a default means the same as nothing.
  @Test
  void aDefaultThatIsWrittenOutChangesNothing() {
    for (String written :
        List.of(
            "before_end: 10 s, as: -> before_end: 10 s, within: 15 s, late: 15 s, over: 0 s, takes: 0 s, as:",
            "lasts: 1 min, power: 60 W + -> lasts: 1 min, warm_up: no, power: 60 W +",
            "needs: [age] } -> needs: [age], outside: defer }",
            "before_end: 20 s, as: -> before_end: 20 s, if_missing: go_on, as:")) {
      List<String> parts = List.of(written.split(" -> ", -1));
      assertThat(
              Laboratory.library(parts.get(0), parts.get(1))
                  .protocol("stage-readings")
                  .heading()
                  .fingerprint()
                  .differences(
                      Laboratory.library().protocol("stage-readings").heading().fingerprint()))
          .as(written)
          .isEmpty();
    }
  }

  @Test
  void aKeyThatIsNotOnThePageIsRefused() {
    SourceFile file =
        SourceFile.of(
            "p.yaml", "format: 1\nkind: rules\nid: p\nversion: 1.0.0\ntitle: P\nmeasur: []\n");
    assertThatThrownBy(() -> Library.of(List.of(file)))
        .isInstanceOf(FileRefused.class)
        .hasMessageContaining("measur is not a key")
        .hasMessageContaining("did you mean measure?");
  }
}
