package org.gradus.library;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.RecordRefused;
import org.gradus.diagnostic.SettingRefused;
import org.gradus.history.TestRecord;
import org.gradus.history.Title;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.junit.jupiter.api.Test;

/**
 * An equation that has got another id: protocols, settings and records that use the former one are
 * refused, and the message names the new one.
 */
class ReplacedIdsTest {

  private static final String RENAMED =
      Meadow.edit(Meadow.EQUATIONS, "- id: simple\n", "- id: sloping\n    replaces: [simple]\n");
  private static final String CHOSEN =
      Meadow.edit(
          Meadow.edit(
              Meadow.WALK,
              "settings:\n",
              "settings:\n  rate_by: { value: simple, options: [{ value: simple }, { value: no }] }\n"),
          "  - simple\n",
          "  - simple when rate_by is simple\n  - none\n");

  private static Protocol walk(String walk, String equations) {
    return Meadow.library(walk, Meadow.WATCH, equations).protocol("meadow-walk");
  }

  private static String renamed(String walk) {
    return walk.replace("simple", "sloping");
  }

  private static TestRecord record(Protocol protocol) {
    Person person = Person.builder().age(40).sex(Person.Sex.MALE).build();
    return new TestRecord(Title.of(protocol, person, Optional.empty()), List.of());
  }

  @Test
  void aProtocolWithTheFormerIdIsToldTheNewOne() {
    assertThatExceptionOfType(FileRefused.class)
        .isThrownBy(() -> walk(Meadow.WALK, RENAMED))
        .satisfies(refused -> assertThat(refused.code()).isEqualTo(Code.G309))
        .withMessageContaining("there is no maximal heart rate called simple")
        .withMessageContaining("sloping replaces it");
  }

  @Test
  void aSettingWithTheFormerIdIsToldTheNewOne() {
    Protocol protocol = walk(renamed(CHOSEN), RENAMED);
    assertThatExceptionOfType(SettingRefused.class)
        .isThrownBy(() -> protocol.with("rate_by", "simple"))
        .withMessageContaining("sloping replaces simple");
    assertThatExceptionOfType(SettingRefused.class)
        .isThrownBy(() -> protocol.with("rate_by", "other"))
        .satisfies(refused -> assertThat(refused).hasMessageNotContaining("replaces"));
  }

  @Test
  void aRecordWithTheFormerIdIsRefusedWithTheNewOne() {
    TestRecord old = record(walk(CHOSEN, Meadow.EQUATIONS));
    Library now = Meadow.library(renamed(CHOSEN), Meadow.WATCH, RENAMED);
    assertThatExceptionOfType(RecordRefused.class)
        .isThrownBy(() -> old.verify(now))
        .withMessageContaining("sloping replaces simple");
    assertThatExceptionOfType(RecordRefused.class)
        .isThrownBy(() -> old.rerun(now))
        .withMessageContaining("sloping replaces simple");
  }

  @Test
  void aRecordOfFilesWithTheFormerIdIsRefusedWithTheNewOne() {
    TestRecord old = record(walk(Meadow.WALK, Meadow.EQUATIONS));
    assertThat(old.verify(Meadow.library(Meadow.WALK, Meadow.WATCH, Meadow.EQUATIONS))).isEmpty();
    assertThatExceptionOfType(RecordRefused.class)
        .isThrownBy(() -> old.verify(Meadow.library(renamed(Meadow.WALK), Meadow.WATCH, RENAMED)))
        .satisfies(refused -> assertThat(refused.code()).isEqualTo(Code.G608))
        .withMessageContaining("sloping now replaces simple");
  }

  @Test
  void anIdOfThePastIsNotGivenToAnotherEquation() {
    String second = "  - { id: %s, rate: 200 bpm, sd: 11 bpm, source: book, replaces: [%s] }\n";
    assertThat(
            Meadow.found(
                renamed(Meadow.WALK), Meadow.WATCH, RENAMED + second.formatted("simple", "old")))
        .containsExactly("G306 \"simple\"");
    assertThat(
            Meadow.found(
                renamed(Meadow.WALK), Meadow.WATCH, RENAMED + second.formatted("new", "simple")))
        .containsExactly("G306 \"simple\"");
    assertThat(
            Meadow.found(
                renamed(Meadow.WALK), Meadow.WATCH, RENAMED + second.formatted("new", "sloping")))
        .containsExactly("G306 \"sloping\"");
  }

  @Test
  void aTitleIsOfOneEquationOnly() {
    String titled =
        Meadow.edit(Meadow.EQUATIONS, "rate: (210", "title: 210 - 0.8 age\n    rate: (210");
    String second = "  - { id: new, title: %s, rate: 200 bpm, sd: 11 bpm, source: book }\n";
    assertThat(Meadow.found(Meadow.WALK, Meadow.WATCH, titled)).isEmpty();
    assertThat(Meadow.found(Meadow.WALK, Meadow.WATCH, titled + second.formatted("210 - 0.8 age")))
        .containsExactly("G306 \"210 - 0.8 age\"");
    assertThat(Meadow.found(Meadow.WALK, Meadow.WATCH, titled + second.formatted("\"by: age\"")))
        .containsExactly("G305 \"by: age\"");
  }
}
