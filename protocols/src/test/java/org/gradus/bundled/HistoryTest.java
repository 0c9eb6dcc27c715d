package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.gradus.bundled.Walks.WALK;
import static org.gradus.bundled.Walks.ines;
import static org.gradus.session.Readings.answer;
import static org.gradus.session.Readings.chosen;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.pulse;
import static org.gradus.session.Readings.rating;
import static org.gradus.session.Times.at;
import static org.gradus.session.Times.seconds;
import static org.gradus.unit.Quantities.bpm;
import static org.gradus.unit.Quantities.mph;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.JournalFailed;
import org.gradus.diagnostic.RecordRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.history.Journal;
import org.gradus.history.LineLedger;
import org.gradus.history.TestRecord;
import org.gradus.history.Title;
import org.gradus.library.Library;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Setting;
import org.gradus.report.Report;
import org.gradus.session.Decision;
import org.gradus.session.Loading;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.words.Language;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;

/** Records: written, read, checked, run again, and taken up after a crash. */
class HistoryTest {

  private static final Library LIBRARY = Bundled.library();

  /** A test in which something of every sort is told. */
  private static Session eventful(Session session) {
    Decision second = session.record(at("2:00"), pulse(26, seconds(15)));
    session.amend(
        at("2:05"), second.event(), pulse(27, seconds(15)), "counted \"one\" first\u2028");
    session.record(
        at("2:50"), pressure(142, 80), rating(10, "rpe_6_20"), chosen("gait", "walking"));
    session.follow(session.record(at("3:00"), pulse(29, seconds(15))));
    session.recordTaken(at("3:44"), at("3:40"), pressure(144, 80));
    session.report(at("3:50"), "handrail");
    session.withdraw(at("3:55"), "handrail", "hands are free again");
    session.report(at("3:56"), "breathless", 1);
    session.follow(session.record(at("4:00"), heartRate(113)));
    session.loadSet(at("4:10"), new Loading("speed", mph(2.4)));
    Decision odd = session.record(at("5:00"), heartRate(60));
    session.reject(at("5:05"), odd.event(), "heart_rate", "the strap had slipped");
    session.override(at("5:30"), new Verdict.Hold(at("8:00")), "to see");
    session.override(at("6:00"), new Verdict.Finish(), "enough for today");
    session.abandon(at("7:00"), "the bell rang");
    return session;
  }

  static Session eventful() {
    return eventful(Walks.walking(ines()));
  }

  @Test
  void aRecordIsReadAsItWasWritten() {
    TestRecord record = TestRecord.of(eventful(), Optional.of("no. 17"));
    TestRecord read = TestRecord.parse("walk.jsonl", record.text());
    assertThat(read.text()).isEqualTo(record.text());
    assertThat(read.entries()).isEqualTo(record.entries());
    assertThat(read.title().identity()).contains("no. 17");
    assertThat(read.withoutIdentity().text()).doesNotContain("no. 17");
  }

  @Test
  void everyLineIsYamlToo() {
    for (String line : TestRecord.of(eventful(), Optional.empty()).text().lines().toList()) {
      assertThat(new Load(LoadSettings.builder().build()).loadFromString(line))
          .isInstanceOf(Map.class);
      assertThat(line).matches("\\p{ASCII}*");
    }
  }

  @Test
  void aRecordThatIsRunAgainWithItsFilesMatches() {
    TestRecord record = TestRecord.of(eventful(), Optional.empty());
    assertThat(TestRecord.parse("walk.jsonl", record.text()).verify(LIBRARY)).isEmpty();
  }

  @Test
  void settingsBelongToTheRecord() {
    Protocol strict = WALK.with("steady_band", bpm(4));
    Session session = Walks.ready(strict, ines());
    session.follow(session.decide(at("0:00")));
    session.record(at("2:00"), heartRate(105));
    session.record(at("3:00"), heartRate(110));
    TestRecord record = TestRecord.of(session, Optional.empty());
    assertThat(record.entries().get(3).answer()).startsWith("HOLD");
    assertThat(record.verify(LIBRARY)).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(doubles = {5.5, 16.0 / 3, 4 + 1e-13, 5.123456789012345, 0.1 + 0.2 + 4.7})
  void aSettingOfAnyDigitsIsReadAsItWasSet(double band, @TempDir Path folder) throws IOException {
    Protocol strict = WALK.with("steady_band", bpm(band));
    Path file = folder.resolve("walk.jsonl");
    try (Journal journal = Journal.create(file, strict, ines(), Optional.empty())) {
      Session.open(strict, ines(), journal).record(at("0:00"), answer("pregnant", false));
    }
    try (Journal.Reopened again = Journal.reopen(file, LIBRARY)) {
      assertThat(again.session().outcome().protocol().settings().get("steady_band"))
          .extracting(Setting::value)
          .isEqualTo(new Setting.Figure(bpm(band)));
    }
    assertThat(TestRecord.parse("walk", Files.readString(file)).verify(LIBRARY)).isEmpty();
  }

  @Test
  void aSettingThatTheProtocolNoLongerHasIsPassedOverAndNamed() {
    TestRecord record = TestRecord.of(Walks.walking(ines(), 105, 110), Optional.empty());
    Title title = record.title();
    Map<String, String> settings = new LinkedHashMap<>(title.settings());
    settings.put("former_band", "6 bpm");
    TestRecord older =
        new TestRecord(
            new Title(
                title.protocol(),
                title.version(),
                title.fingerprint(),
                settings,
                title.person(),
                title.identity(),
                title.begun()),
            record.entries());
    assertThat(older.rerun(LIBRARY)).isEmpty();
    assertThat(older.settingsPassedOver(LIBRARY))
        .containsExactly(Map.entry("former_band", "6 bpm"));
  }

  @Test
  void withOtherFilesItIsNotVerifiedButMayBeRunAgain() {
    List<SourceFile> changed = new ArrayList<>();
    for (SourceFile file : Bundled.files()) {
      changed.add(
          SourceFile.of(file.name(), file.text().replace("value: 5 bpm\n", "value: 4 bpm\n")));
    }
    Library other = Library.of(changed);
    Session session = Walks.walking(ines(), 105, 110);
    TestRecord record = TestRecord.of(session, Optional.empty());
    assertThatThrownBy(() -> record.verify(other))
        .isInstanceOf(RecordRefused.class)
        .hasMessageContaining("graded-walk-standard 1.3.0");
    // the setting is part of the record, so that what differs is only what the files say beyond it
    assertThat(record.rerun(other)).isEmpty();
    assertThat(record.settingsPassedOver(other)).isEmpty();
    List<SourceFile> lower = new ArrayList<>();
    for (SourceFile file : Bundled.files()) {
      lower.add(
          SourceFile.of(
              file.name(),
              file.text()
                  .replace(
                      "heart_rate >= lesser(", "heart_rate >= 108 bpm or heart_rate >= lesser(")));
    }
    assertThat(record.rerun(Library.of(lower)))
        .containsExactly(
            new TestRecord.Difference(
                4, "ADVANCE to walk_2 at 2.5 mph, 12 % (next)", "FINISH (steady-and-high)"));
  }

  @Test
  void aTamperedAnswerIsFound() {
    TestRecord record = TestRecord.of(Walks.walking(ines(), 105, 110), Optional.empty());
    List<TestRecord.Entry> entries = new ArrayList<>(record.entries());
    TestRecord.Entry last = entries.get(3);
    entries.set(3, new TestRecord.Entry(4, last.event(), "FINISH", last.rule(), List.of(), false));
    assertThat(new TestRecord(record.title(), entries).verify(LIBRARY))
        .containsExactly(
            new TestRecord.Difference(
                4, "FINISH (next)", "ADVANCE to walk_2 at 2.5 mph, 12 % (next)"));
  }

  @Test
  void aJournalIsTakenUpWhereItEnded(@TempDir Path folder) throws IOException {
    Path file = folder.resolve("walk.jsonl");
    try (Journal journal = Journal.create(file, WALK, ines(), Optional.empty())) {
      Session session = Walks.begun(journal);
      session.record(at("2:00"), heartRate(105));
    }
    if (file.getFileSystem().supportedFileAttributeViews().contains("posix")) {
      assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file)))
          .isEqualTo("rw-------");
    }
    try (Journal.Reopened again = Journal.reopen(file, LIBRARY)) {
      assertThat(again.dropped()).isEmpty();
      again.session().record(at("3:00"), heartRate(110));
    }
    TestRecord record = TestRecord.parse("walk.jsonl", Files.readString(file));
    assertThat(record.entries()).hasSize(4);
    assertThat(record.entries().get(3).answer()).startsWith("ADVANCE");
    assertThat(record.verify(LIBRARY)).isEmpty();
    assertThatThrownBy(() -> Journal.create(file, WALK, ines(), Optional.empty()))
        .isInstanceOf(JournalFailed.class)
        .hasMessageContaining("there is such a file already");
  }

  @Test
  void aJournalWrittenLiveIsTheRecordMadeAfterwards(@TempDir Path folder) throws IOException {
    Path file = folder.resolve("walk.jsonl");
    try (Journal journal = Journal.create(file, WALK, ines(), Optional.empty())) {
      Session session = eventful(Walks.begun(journal));
      assertThat(Files.readString(file)).isEqualTo(TestRecord.of(session, Optional.empty()).text());
    }
  }

  @Test
  void aRecordSaysWhenTheSessionWasOpenedIfTheHostDoes(@TempDir Path folder) throws IOException {
    ZonedDateTime moment = ZonedDateTime.parse("2026-10-25T02:30+01:00[Europe/Vienna]");
    Title title = Title.of(WALK, ines(), Optional.of("No. 17")).begun(moment);
    Path file = folder.resolve("walk.jsonl");
    try (Journal journal = Journal.create(file, title)) {
      eventful(Walks.begun(journal));
    }
    TestRecord record = TestRecord.parse("walk.jsonl", Files.readString(file));
    assertThat(record.title()).isEqualTo(title);
    assertThat(record.title().begun()).contains(moment);
    assertThat(record.withoutIdentity().title().begun()).contains(moment);
    assertThat(record.verify(LIBRARY)).isEmpty();
    List<String> lines = new ArrayList<>();
    Session again = eventful(Walks.begun(LineLedger.begin(title, lines::add)));
    assertThat(String.join("\n", lines) + "\n").isEqualTo(record.text());
    assertThat(TestRecord.of(again, Optional.of("No. 17")).begun(moment)).isEqualTo(record);

    Report report = Report.of(record, LIBRARY);
    assertThat(report.text()).contains("date: 25 October 2026, 02:30 (UTC+01:00)");
    assertThat(report.in(Language.of(Locale.GERMAN)).text())
        .contains("25. Oktober 2026, 02:30 Uhr (UTC+01:00)");
    assertThat(report.in(Language.of(Locale.forLanguageTag("es"))).text())
        .contains("25 de octubre de 2026, 02:30 (UTC+01:00)");
    assertThat(report.date("last Sunday").text()).contains("last Sunday").doesNotContain("02:30");
  }

  @ParameterizedTest
  @ValueSource(strings = {"2026-10-25", "2026-10-25T02:30", "2026-10-25T02:30+01:00[Nowhere]", ""})
  void aMomentWithoutAZoneIsRefused(String moment) {
    TestRecord record =
        TestRecord.of(Session.open(WALK, ines()), Optional.empty())
            .begun(ZonedDateTime.parse("2026-10-25T02:30+01:00"));
    String line = Sealed.opened(record.text().strip());
    assertThat(line).contains("2026-10-25T02:30+01:00");
    String other = Sealed.lines(List.of(line.replace("2026-10-25T02:30+01:00", moment)));
    assertThatThrownBy(() -> TestRecord.parse("walk", other))
        .isInstanceOf(RecordRefused.class)
        .hasMessageContaining("begun")
        .hasMessageContaining("with its zone");
  }

  @Test
  void aJournalCutAnywhereInItsLastLineLosesOnlyThatLine(@TempDir Path folder) throws IOException {
    byte[] whole =
        TestRecord.of(Walks.walking(ines(), 105, 110), Optional.empty())
            .text()
            .getBytes(StandardCharsets.US_ASCII);
    int lastLine = new String(whole, StandardCharsets.US_ASCII).trim().lastIndexOf('\n') + 1;
    for (int cut = lastLine; cut < whole.length; cut++) {
      Path file = folder.resolve("cut-" + cut + ".jsonl");
      Files.write(file, java.util.Arrays.copyOf(whole, cut));
      try (Journal.Reopened again = Journal.reopen(file, LIBRARY)) {
        assertThat(again.session().events()).as("cut at %d", cut).hasSize(3);
        assertThat(again.dropped().isPresent()).isEqualTo(cut > lastLine);
        again.session().record(at("3:00"), heartRate(110));
      }
      assertThat(TestRecord.parse("cut", Files.readString(file)).entries()).hasSize(4);
    }
  }

  @Test
  void aFlippedBitNeverGivesAWrongEvent() {
    TestRecord record = TestRecord.of(Walks.walking(ines(), 105, 110), Optional.empty());
    byte[] whole = record.text().getBytes(StandardCharsets.US_ASCII);
    for (int bit = 0; bit < whole.length * 8; bit++) {
      byte[] flipped = whole.clone();
      flipped[bit / 8] ^= (byte) (1 << bit % 8);
      String text = new String(flipped, StandardCharsets.ISO_8859_1);
      assertThatThrownBy(() -> TestRecord.parse("flipped", text)).isInstanceOf(RecordRefused.class);
    }
  }
}
