package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.databind.node.TextNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.NotFound;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Fingerprint;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;

/**
 * Every key of a file is in the fingerprint of a protocol, or is one of the words and notes that
 * mean nothing to a test. Under each key of the bundled files the value is changed, in one way
 * after another, until the fingerprint is another.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class EveryKeyMeansTest {

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final Library LIBRARY = Bundled.library();

  /** Words for people, citations, and notes to reviewers. */
  private static final Set<String> WORDS =
      Set.of(
          "format",
          "version",
          "title",
          "language",
          "sources",
          "source",
          "note",
          "why",
          "do",
          "say",
          "cautions",
          "check",
          "usual",
          "accept",
          "finding",
          "falls",
          "reason",
          "energy",
          "ask",
          "watch",
          "assumes",
          // What an equation was called before: it only words the refusal of the former name.
          "replaces");

  /**
   * Keys whose value cannot be another alone: no file loads then, or it is another protocol. What
   * they say is in the fingerprint of what uses them: the type of a signal, the loads of an
   * equation.
   */
  private static final Set<String> NEVER_ALONE =
      Set.of(
          ".id",
          ".kind",
          ".include.use",
          ".costs.id",
          ".costs.of",
          ".measure.as",
          ".measure.read",
          ".stages.measure.as",
          ".stages.measure.read",
          ".max_heart_rates.id",
          ".models.id",
          ".inputs.*.kind",
          ".signals.*.kind",
          ".results.id",
          // The kind of a result is that of its formula.
          ".results.unit",
          ".spreads.of",
          ".scales.*.of",
          ".tables.*.gives",
          ".tables.*.of",
          ".stages.load",
          ".recovery.stages.load");

  private static final List<List<String>> WORD_FAMILIES =
      List.of(
          List.of("yes", "no"),
          List.of("rest", "cool_down"),
          List.of("wait", "go_on", "finish"),
          List.of("finish", "stop"),
          List.of("defer", "caution"),
          List.of("seated", "standing", "lying"),
          List.of("resting", "upright"),
          List.of("submaximal", "maximal"),
          List.of("treadmill", "track", "floor", "step", "leg-cycle", "arm-crank"),
          List.of("line", "step"),
          List.of("refuse", "nearest"),
          List.of("method", "inputs"),
          List.of("test", "reading"),
          List.of("sum", "procedure"),
          List.of("m/s", "km/h"),
          List.of("done", "1 min", "90 s"));

  private static final int MOST_TRIES_OF_WORDS = 4;
  private static final int MOST_TRIES_IN_A_FILE = 60;
  private static final Pattern NUMBER = Pattern.compile("[0-9]+");

  private final Map<String, Integer> tries = new TreeMap<>();
  private final Set<String> keys = new TreeSet<>();
  private final Set<String> found = new TreeSet<>();
  private final Set<String> changed = new TreeSet<>();
  private final Set<String> loaded = new TreeSet<>();

  /** One file of a protocol as a tree. */
  private record Tree(String protocol, List<SourceFile> others, String name, JsonNode root) {

    Optional<Fingerprint> fingerprint() {
      List<SourceFile> files = new ArrayList<>(others);
      try {
        files.add(SourceFile.of(name, JSON.writeValueAsString(root)));
        return Optional.of(Library.of(files).protocol(protocol).heading().fingerprint());
      } catch (FileRefused | NotFound refused) {
        return Optional.empty();
      } catch (JsonProcessingException e) {
        throw new IllegalStateException(e);
      }
    }
  }

  @BeforeAll
  void changeEverything() {
    // No bundled protocol uses a maximum that was made for some people only. This comes first,
    // since what is found here is not looked for in all the others.
    List<SourceFile> ofMen = new ArrayList<>();
    for (SourceFile file : LIBRARY.filesOf("graded-walk-standard")) {
      String text =
          file.text()
              .replace("- general_1971\n", "- men_1994 when sex is male\n  - general_1971\n");
      ofMen.add(SourceFile.of(file.name(), text));
    }
    changeEverything(Library.of(ofMen), "graded-walk-standard");
    tries.clear();
    LIBRARY.protocols().forEach(protocol -> changeEverything(LIBRARY, protocol));
    // What no bundled protocol says.
    Library laboratory = Laboratory.library();
    laboratory.protocols().forEach(protocol -> changeEverything(laboratory, protocol));
  }

  private void changeEverything(Library library, String protocol) {
    Fingerprint before = library.protocol(protocol).heading().fingerprint();
    List<SourceFile> files = library.filesOf(protocol);
    for (SourceFile file : files) {
      List<SourceFile> others = files.stream().filter(other -> other != file).toList();
      JsonNode root =
          JSON.valueToTree(new Load(LoadSettings.builder().build()).loadFromString(file.text()));
      walk(new Tree(protocol, others, file.name(), inOneLine(root)), root, "", before);
    }
  }

  private static JsonNode inOneLine(JsonNode node) {
    if (node instanceof ObjectNode map) {
      for (String key : names(map)) {
        map.set(key, inOneLine(map.get(key)));
      }
    } else if (node instanceof ArrayNode list) {
      for (int i = 0; i < list.size(); i++) {
        list.set(i, inOneLine(list.get(i)));
      }
    } else if (node.isTextual()) {
      return TextNode.valueOf(node.textValue().replaceAll("\\s+", " "));
    }
    return node;
  }

  private static List<String> names(ObjectNode map) {
    List<String> names = new ArrayList<>();
    map.fieldNames().forEachRemaining(names::add);
    return names;
  }

  private static final Set<String> NAMED =
      Set.of(
          "signals",
          "loads",
          "ergometers",
          "scales",
          "signs",
          "inputs",
          "settings",
          "define",
          "tables",
          "where",
          "usual",
          "sources");

  // The way to a key; a name that an author gives stands as *.
  private void walk(Tree tree, JsonNode node, String way, Fingerprint before) {
    if (node instanceof ObjectNode map) {
      boolean named = NAMED.contains(way.substring(way.lastIndexOf('.') + 1));
      for (String key : names(map)) {
        String there = way + "." + (named ? "*" : key);
        JsonNode value = map.get(key);
        keys.add(key);
        if (!named && isLeaf(value)) {
          change(tree, map, key, there, before);
        }
        if (!WORDS.contains(key)) {
          walk(tree, value, there, before);
        }
      }
      if (way.equals(".tables.*")) {
        // Left out by every bundled file: the defaults.
        add(tree, map, "between", "step", way, before);
        add(tree, map, "beyond", "nearest", way, before);
      }
    } else if (node instanceof ArrayNode list) {
      for (int i = 0; i < list.size(); i++) {
        walk(tree, list.get(i), way, before);
      }
    }
  }

  private static boolean isLeaf(JsonNode value) {
    if (value instanceof ArrayNode list) {
      for (JsonNode item : list) {
        if (!item.isValueNode()) {
          return false;
        }
      }
    }
    return !value.isObject();
  }

  private void change(Tree tree, ObjectNode map, String key, String there, Fingerprint before) {
    found.add(there);
    JsonNode value = map.get(key);
    if (NEVER_ALONE.contains(there)) {
      return;
    }
    for (JsonNode other : others(value)) {
      attempt(tree, there, before, () -> map.set(key, other), () -> map.set(key, value));
    }
    attempt(tree, there, before, () -> map.remove(key), () -> map.set(key, value));
  }

  private void add(
      Tree tree, ObjectNode map, String key, String word, String way, Fingerprint before) {
    found.add(way + "." + key);
    keys.add(key);
    attempt(tree, way + "." + key, before, () -> map.put(key, word), () -> map.remove(key));
  }

  private void attempt(Tree tree, String way, Fingerprint before, Runnable change, Runnable undo) {
    boolean word = isWord(way);
    String where = word ? way : tree.protocol() + " " + tree.name() + " " + way;
    int most = word ? MOST_TRIES_OF_WORDS : MOST_TRIES_IN_A_FILE;
    if (changed.contains(way) || tries.merge(where, 1, Integer::sum) > most) {
      return;
    }
    change.run();
    tree.fingerprint()
        .ifPresent(
            after -> {
              loaded.add(way);
              if (!after.differences(before).isEmpty()) {
                changed.add(way);
              }
            });
    undo.run();
  }

  private static List<JsonNode> others(JsonNode value) {
    List<JsonNode> others = new ArrayList<>();
    if (value instanceof ArrayNode list && list.size() > 1) {
      for (int i = list.size() - 1; i >= 0; i--) {
        ArrayNode fewer = list.deepCopy();
        fewer.remove(i);
        others.add(fewer);
      }
      others.add(list.deepCopy().add("another"));
    } else if (value.isValueNode()) {
      String text = value.asText();
      for (List<String> family : WORD_FAMILIES) {
        if (family.contains(text)) {
          family.stream().filter(w -> !w.equals(text)).map(TextNode::valueOf).forEach(others::add);
        }
      }
      Matcher number = NUMBER.matcher(text);
      while (number.find()) {
        long figure = Long.parseLong(number.group());
        for (long other : new long[] {figure + 1, figure - 1}) {
          if (other >= 0) {
            others.add(
                TextNode.valueOf(
                    text.substring(0, number.start()) + other + text.substring(number.end())));
          }
        }
      }
      int when = text.indexOf(" when ");
      String all = text.substring(when < 0 ? 0 : when + 6);
      String start = text.substring(0, text.length() - all.length());
      others.add(TextNode.valueOf(start + "not (" + all + ")"));
      others.add(TextNode.valueOf(start + "1.1 * (" + all + ")"));
      others.add(TextNode.valueOf(text + "x"));
    }
    return others;
  }

  private static boolean isWord(String way) {
    for (String key : way.substring(1).split("\\.", -1)) {
      if (WORDS.contains(key)) {
        return true;
      }
    }
    return false;
  }

  @Test
  void aKeyThatIsNoWordForPeopleChangesTheFingerprint() {
    Set<String> silent = new TreeSet<>(found);
    silent.removeIf(way -> isWord(way) || changed.contains(way) || NEVER_ALONE.contains(way));
    assertThat(silent).isEmpty();
    assertThat(found).containsAll(NEVER_ALONE);
  }

  @Test
  void aWordForPeopleDoesNot() {
    assertThat(changed).noneMatch(EveryKeyMeansTest::isWord);
    assertThat(loaded).anyMatch(EveryKeyMeansTest::isWord);
  }

  /** The names of all keys that schemas know. */
  static Set<String> keysOfSchemas(String... names) throws IOException {
    Set<String> keys = new TreeSet<>();
    for (String name : names) {
      JsonNode schema =
          JSON.readTree(
              EveryKeyMeansTest.class.getResourceAsStream(
                  "/org/gradus/schema/" + name + ".schema.json"));
      schema
          .findValues("properties")
          .forEach(properties -> properties.fieldNames().forEachRemaining(keys::add));
    }
    return keys;
  }

  @Test
  void everyKeyOfTheSchemasIsAmongThem() throws IOException {
    Set<String> unseen = keysOfSchemas("common", "protocol", "rules", "equations");
    unseen.removeAll(keys);
    unseen.removeAll(WORDS);
    assertThat(unseen).isEmpty();
  }
}
