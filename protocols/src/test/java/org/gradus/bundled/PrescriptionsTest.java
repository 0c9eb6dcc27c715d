package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.gradus.library.Library;
import org.gradus.protocol.Protocol;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;

/**
 * Ages, readings, errors and settings stand in the files as they were written down a second time by
 * hand.
 */
class PrescriptionsTest {

  private static final Library LIBRARY = Bundled.library();
  private static final String POSSIBLE = "possible_loads";
  private static final String SETTINGS = "settings";
  private static final Set<String> WRITTEN_SETTINGS = new TreeSet<>();
  private static final Map<String, Prescription> WRITTEN = written();

  /** What was written down of a protocol. */
  static Prescription written(String protocol) {
    return Objects.requireNonNull(WRITTEN.get(protocol), protocol);
  }

  /** Whether every setting of a protocol was written down as it is. */
  static boolean areSettingsAsWritten(Protocol protocol) {
    return WRITTEN_SETTINGS.containsAll(Prescription.settings(protocol));
  }

  private static Map<String, Prescription> written() {
    Map<String, Prescription> all = new TreeMap<>();
    try (InputStream stream =
        Objects.requireNonNull(PrescriptionsTest.class.getResourceAsStream("prescriptions.yaml"))) {
      Load reader = new Load(LoadSettings.builder().build());
      Map<?, ?> written = (Map<?, ?>) reader.loadFromInputStream(stream);
      List<String> possible = texts(written.get(POSSIBLE));
      WRITTEN_SETTINGS.addAll(texts(written.get(SETTINGS)));
      written.forEach(
          (id, keys) -> {
            if (!id.equals(POSSIBLE) && !id.equals(SETTINGS)) {
              all.put(id.toString(), prescription((Map<?, ?>) keys, possible));
            }
          });
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return all;
  }

  private static Prescription prescription(Map<?, ?> keys, List<String> common) {
    // A protocol with equipment of its own has loads of its own beside the common ones.
    List<String> possible = new ArrayList<>(common);
    possible.addAll(texts(keys.get(POSSIBLE)));
    return new Prescription(
        String.valueOf(keys.get("for")),
        texts(keys.get("stages")),
        texts(keys.get("recovery")),
        texts(keys.get("errors")),
        possible);
  }

  private static List<String> texts(@Nullable Object list) {
    return list instanceof List<?> items ? items.stream().map(String::valueOf).toList() : List.of();
  }

  @Test
  void everyProtocolPrescribesWhatWasWrittenDown() {
    Map<String, Prescription> found = new TreeMap<>();
    LIBRARY.protocols().forEach(id -> found.put(id, Prescription.of(LIBRARY.protocol(id))));
    assertThat(found).containsExactlyEntriesOf(WRITTEN);
  }

  @Test
  void everySettingIsAsItWasWrittenDown() {
    Set<String> found = new TreeSet<>();
    LIBRARY.protocols().forEach(id -> found.addAll(Prescription.settings(LIBRARY.protocol(id))));
    assertThat(found).containsExactlyElementsOf(WRITTEN_SETTINGS);
  }

  @Test
  void everyEstimateIsLookedAtTwice() {
    for (String id : LIBRARY.protocols()) {
      Protocol protocol = LIBRARY.protocol(id);
      boolean looks =
          protocol.rules().result().stream()
              .anyMatch(rule -> rule.id().equals("high-for-age-and-sex"));
      assertThat(looks).as(id).isEqualTo(!protocol.assessment().estimates().isEmpty());
    }
  }
}
