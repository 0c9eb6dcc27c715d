package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import org.gradus.testkit.GrownProtocol;
import org.junit.jupiter.api.Test;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;

/**
 * The laws of sessions hold for the protocols that are grown, so every key that a session rests on
 * must be grown. A new key of a protocol fails here until it is, or until it is told why it need
 * not be.
 */
class GrownKeysTest {

  private static final int PROTOCOLS = 60;

  /** Keys of a protocol that no session rests on, or rests on only through others. */
  private static final Map<String, Set<String>> NOT_GROWN =
      Map.of(
          "words for people, citations and notes to reviewers",
          Set.of(
              "cautions",
              "cues",
              "do",
              "falls",
              "language",
              "note",
              "reason",
              "say",
              "sources",
              "usual",
              "why",
              "accept",
              "finding"),
          "put together when a file is read: a session sees the whole only",
          Set.of("include", "use", "without"),
          "results, which are worked out beside a session",
          Set.of(
              "assumes",
              "cost",
              "covers",
              "error",
              "headline",
              "least_span",
              "look",
              "lower",
              "max_heart_rate",
              "model",
              "only_when",
              "reference",
              "result",
              "second_look",
              "results",
              "sd",
              "suspect",
              "upper",
              "where"),
          "other machines than a treadmill, whose loads are figures like its speed and grade",
          Set.of(
              "brake",
              "carries_body_mass",
              "distance",
              "ergometers",
              "pedal_rate",
              "power",
              "step_height",
              "step_rate",
              "travel",
              "unit"));

  @Test
  void everyKeyThatASessionRestsOnIsGrown() throws IOException {
    Set<String> grown = new TreeSet<>();
    Random random = new Random(20261130);
    for (int i = 0; i < PROTOCOLS; i++) {
      keys(
          new Load(LoadSettings.builder().build()).loadFromString(GrownProtocol.of(random).text()),
          grown);
    }
    Set<String> left = EveryKeyMeansTest.keysOfSchemas("common", "protocol");
    left.removeAll(grown);
    Set<String> told = new TreeSet<>();
    NOT_GROWN.values().forEach(told::addAll);
    assertThat(left).isEqualTo(told);
  }

  private static void keys(Object node, Set<String> keys) {
    if (node instanceof Map<?, ?> map) {
      map.forEach(
          (key, value) -> {
            keys.add(String.valueOf(key));
            keys(value, keys);
          });
    } else if (node instanceof List<?> list) {
      list.forEach(item -> keys(item, keys));
    }
  }
}
