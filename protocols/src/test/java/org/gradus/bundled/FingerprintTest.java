package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.gradus.bundled.Walks.ines;
import static org.gradus.bundled.Walks.walking;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Times.at;
import static org.gradus.unit.Quantities.bpm;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.RecordRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.history.Json;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
import org.gradus.protocol.Fingerprint;
import org.gradus.protocol.Protocol;
import org.gradus.session.Ledger;
import org.gradus.session.Session;
import org.junit.jupiter.api.Test;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;

/** A record goes with what its protocol means, not with the bytes of its files. */
class FingerprintTest {

  private static final String WALK = "graded-walk-standard";
  private static final Library LIBRARY = Bundled.library();

  private static Fingerprint of(Library library) {
    return library.protocol(WALK).heading().fingerprint();
  }

  /** The files of the walk, with a text in one of them changed. */
  private static Library edited(String file, String from, String to) {
    List<SourceFile> files = new ArrayList<>();
    assertThat(LIBRARY.filesOf(WALK)).extracting(SourceFile::name).contains(file);
    for (SourceFile old : LIBRARY.filesOf(WALK)) {
      String text = old.text();
      if (old.name().equals(file)) {
        assertThat(text).contains(from);
        text = text.replace(from, to);
      }
      files.add(SourceFile.of(old.name(), text));
    }
    return Library.of(files);
  }

  private static List<String> differences(String file, String from, String to) {
    return of(LIBRARY).differences(of(edited(file, from, to)));
  }

  private static TestRecord record() {
    Session session = walking(ines(), 102, 113);
    session.follow(session.decide(at("3:00")));
    session.follow(session.record(at("4:00"), heartRate(114)));
    session.follow(session.report(at("4:10"), "chest_pain"));
    return TestRecord.of(session, Optional.empty());
  }

  @Test
  void whatIsWrittenOtherwiseMeansTheSame() throws JsonProcessingException {
    List<SourceFile> rewritten = new ArrayList<>();
    for (SourceFile file : Bundled.files()) {
      Object tree = new Load(LoadSettings.builder().build()).loadFromString(file.text());
      String json = new ObjectMapper().writeValueAsString(reversed(tree));
      rewritten.add(SourceFile.of(file.name(), json));
    }
    Collections.reverse(rewritten);
    Library other = Library.of(rewritten);
    for (String id : LIBRARY.protocols()) {
      Fingerprint here = LIBRARY.protocol(id).heading().fingerprint();
      Fingerprint there = other.protocol(id).heading().fingerprint();
      assertThat(here.differences(there)).as(id).isEmpty();
      assertThat(there.digest()).isEqualTo(here.digest());
    }
  }

  // Keys in another order, and long texts in one line.
  private static Object reversed(Object tree) {
    if (tree instanceof Map<?, ?> map) {
      List<Map.Entry<?, ?>> entries = new ArrayList<>(map.entrySet());
      // Numbered classes of a table of norms stand in the order of their numbers.
      if (entries.stream().noneMatch(entry -> entry.getKey() instanceof Integer)) {
        Collections.reverse(entries);
      }
      Map<Object, Object> other = new LinkedHashMap<>();
      entries.forEach(entry -> other.put(entry.getKey(), reversed(entry.getValue())));
      return other;
    } else if (tree instanceof List<?> list) {
      return list.stream().map(FingerprintTest::reversed).toList();
    }
    return tree instanceof String text ? text.replaceAll("\\s+", " ") : tree;
  }

  @Test
  void aCommentALineEndAndWordsChangeNothing() {
    String file = WALK + ".yaml";
    assertThat(differences(file, "stages:\n", "# the stages\nstages:\n")).isEmpty();
    assertThat(differences(file, "\n", "\r\n")).isEmpty();
    assertThat(differences(file, "version: 1.3.0", "version: 1.1.1")).isEmpty();
    assertThat(differences(file, "A steady rate this high ends", "So high a steady rate ends"))
        .isEmpty();
    assertThat(
            of(edited(file, "A steady rate this high ends", "So high a steady rate ends")).texts())
        .isNotEqualTo(of(LIBRARY).texts());
    assertThat(of(edited(file, "stages:\n", "# the stages\nstages:\n")).texts())
        .isEqualTo(of(LIBRARY).texts());
  }

  @Test
  void aFigureIsNamed() {
    String file = WALK + ".yaml";
    assertThat(differences(file, "speed: 2.5 mph, grade: 12 %", "speed: 2.5 mph, grade: 11 %"))
        .containsExactly("walk_2.grade");
    assertThat(
            differences(
                file,
                "walk_3, lasts: 3 min, speed: 3.4 mph",
                "walk_3, lasts: 4 min, speed: 3.5 mph"))
        .containsExactly("walk_3.lasts", "walk_3.speed");
    assertThat(differences(file, "hold 1 min at most 2 times", "hold 1 min at most 3 times"))
        .containsExactly("rule not-yet-steady");
    assertThat(differences(file, "4 bpm to 6 bpm", "4 bpm to 7 bpm"))
        .containsExactly("setting steady_band");
    assertThat(differences(file, "<= steady_band\n", "< steady_band\n"))
        .containsExactly("define steady");
  }

  @Test
  void ofEquationsOnlyThoseThatAreUsedCount() {
    String costs = "common-equations.yaml";
    assertThat(differences(costs, "id: leg_cycling", "id: leg_cycling_anew")).isEmpty();
    assertThat(differences(costs, "1.8 * ", "1.81 * ")).containsExactly("equation walking");
  }

  @Test
  void aSettingOfARecordBelongsToIt() {
    Protocol strict = LIBRARY.protocol(WALK).with("steady_band", bpm(4));
    assertThat(of(LIBRARY).differences(strict.heading().fingerprint()))
        .containsExactly("setting steady_band");
    assertThat(strict.with("steady_band", bpm(5)).heading().fingerprint()).isEqualTo(of(LIBRARY));
  }

  @Test
  void aRecordGoesOnAfterACommentAndOtherWords() {
    TestRecord record = record();
    for (Library other :
        List.of(
            edited(WALK + ".yaml", "stages:\n", "# the stages\nstages:\n"),
            edited("adult-stop-signs.yaml", "Take the load away", "Take all load away"))) {
      assertThat(record.verify(other)).isEmpty();
      assertThat(record.resume(other, Ledger.NONE).events()).hasSameSizeAs(record.entries());
    }
  }

  @Test
  void aRecordIsRefusedAfterAFigureByTheNameOfTheFigure() {
    TestRecord record = record();
    Library other = edited(WALK + ".yaml", "2.5 mph, grade: 12 %", "2.5 mph, grade: 11 %");
    assertThatThrownBy(() -> record.resume(other, Ledger.NONE))
        .isInstanceOf(RecordRefused.class)
        .hasMessageContaining("made with graded-walk-standard 1.3.0")
        .hasMessageContaining("differs in walk_2.grade;")
        .hasMessageContaining("kept beside the record, or rerun it");
    assertThat(record.rerun(other)).isNotEmpty();
  }

  @Test
  void aRecordIsRefusedWithEveryItemThatDiffersOneByOne() {
    TestRecord record = record();
    Library other = edited(WALK + ".yaml", "lasts: 3 min", "lasts: 4 min");
    List<String> expected = differences(WALK + ".yaml", "lasts: 3 min", "lasts: 4 min");
    assertThat(expected).contains("walk_1.lasts", "walk_2.lasts");
    assertThatThrownBy(() -> record.resume(other, Ledger.NONE))
        .isInstanceOfSatisfying(
            RecordRefused.class,
            refused -> {
              assertThat(refused.differences()).isEqualTo(expected);
              assertThat(Json.of(refused)).contains("\"differences\": [\"", "\"walk_2.lasts\"");
            });
    assertThatThrownBy(() -> TestRecord.parse("x", "no record"))
        .isInstanceOfSatisfying(
            RecordRefused.class, refused -> assertThat(refused.differences()).isEmpty());
  }

  @Test
  void theFilesKeptBesideARecordAreEnough() {
    for (String id : LIBRARY.protocols()) {
      List<SourceFile> kept = LIBRARY.filesOf(id);
      assertThat(kept).hasSizeLessThan(LIBRARY.files().size());
      assertThat(Library.of(kept).protocol(id).heading().fingerprint())
          .isEqualTo(LIBRARY.protocol(id).heading().fingerprint());
    }
    assertThat(record().verify(Library.of(LIBRARY.filesOf(WALK)))).isEmpty();
  }
}
