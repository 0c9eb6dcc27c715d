package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.gradus.bundled.Walks.WALK;
import static org.gradus.bundled.Walks.ines;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Times.at;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.GradusException;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.diagnostic.RecordRefused;
import org.gradus.history.Journal;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.session.Ledger;
import org.gradus.session.Session;
import org.gradus.session.Telling;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a record cannot say is refused with the line and the field, and nothing else is thrown. */
class RecordsRefusedTest {

  private static final Library LIBRARY = Bundled.library();

  private static RecordRefused refused(Code code, ThrowingCallable step) {
    List<RecordRefused> all = new ArrayList<>();
    assertThatThrownBy(step)
        .isInstanceOfSatisfying(
            RecordRefused.class,
            refused -> {
              assertThat(refused.code()).isEqualTo(code);
              all.add(refused);
            });
    return all.get(0);
  }

  @ParameterizedTest
  @CsvSource({
    "age-in-kg.jsonl, 1, person.age",
    "setting-not-a-number.jsonl, 1, settings.steady_band",
    "nested-lists.jsonl, 2, the line",
    "oom-hold.jsonl, 3, event.verdict.until",
    "ramp-zero-ms.jsonl, 3, event.load.ramp.every"
  })
  void aLineThatSaysWhatNoRecordSaysIsRefused(
      String file, String line, String field, @TempDir Path folder) throws IOException {
    String text = Sealed.resource(file);
    RecordRefused refused = refused(Code.G615, () -> TestRecord.parse(file, text));
    assertThat(refused.arguments()).startsWith(file, line, field);
    Path journal = Files.writeString(folder.resolve(file), text);
    refused(Code.G615, () -> Journal.reopen(journal, LIBRARY));
    assertThat(Files.readString(journal)).isEqualTo(text);
  }

  // Its files are older than those of the library: the events are tried with the files of today.
  @Test
  void aFinishBeforeTheTestIsRefused() {
    TestRecord record =
        TestRecord.parse("finish.jsonl", Sealed.resource("index-out-of-bounds.jsonl"));
    TestRecord begun = TestRecord.of(Session.open(WALK, ines()), Optional.empty());
    TestRecord forged = new TestRecord(begun.title(), record.entries());
    refused(Code.G620, () -> forged.verify(LIBRARY));
    refused(Code.G620, () -> forged.resume(LIBRARY, Ledger.NONE));
    assertThatThrownBy(() -> forged.rerun(LIBRARY)).isInstanceOf(ReadingRefused.class);
    assertThatThrownBy(() -> record.verify(LIBRARY)).isInstanceOf(GradusException.class);
  }

  @Test
  void whateverIsWrittenCanBeReadAndALongerReasonIsRefused(@TempDir Path folder)
      throws IOException {
    String longest = "\u00e9".repeat(Telling.LONGEST_REASON);
    Path file = folder.resolve("walk.jsonl");
    try (Journal journal = Journal.create(file, WALK, ines(), Optional.of(longest))) {
      Session session = Walks.begun(journal);
      int told = session.record(at("1:00"), heartRate(100)).event();
      for (String reason : List.of(longest + "x", "x".repeat(100_000))) {
        tooLong(() -> session.reject(at("1:10"), told, "heart_rate", reason));
        tooLong(() -> session.amend(at("1:10"), told, heartRate(101), reason));
        tooLong(() -> session.override(at("1:10"), new Verdict.Finish(), reason));
        tooLong(() -> session.abandon(at("1:10"), reason));
      }
      assertThat(session.events()).hasSize(told);
      session.amend(at("1:10"), told, heartRate(101), longest);
      session.abandon(at("1:20"), longest);
    }
    TestRecord record = TestRecord.parse("walk", Files.readString(file));
    assertThat(record.entries()).hasSize(5);
    assertThat(record.title().identity()).contains(longest);
    assertThat(record.verify(LIBRARY)).isEmpty();
    tooLong(() -> Journal.create(folder.resolve("x"), WALK, ines(), Optional.of(longest + "x")));
    assertThat(folder.resolve("x")).doesNotExist();
  }

  private static void tooLong(ThrowingCallable step) {
    assertThatThrownBy(step)
        .isInstanceOfSatisfying(
            ReadingRefused.class, refused -> assertThat(refused.code()).isEqualTo(Code.G511));
  }

  @Test
  void theHeadOfEveryBundledProtocolIsReadAsItWasWritten() {
    for (String id : LIBRARY.protocols()) {
      Protocol protocol = LIBRARY.protocol(id);
      Person person =
          Walked.person(Math.max(20, protocol.eligibility().youngest()), Person.Sex.MALE, 80)
              .height(Quantity.of(180, Unit.CENTIMETRE))
              .build();
      Session session = Session.open(protocol, person);
      String text = TestRecord.of(session, Optional.empty()).text();
      assertThat(TestRecord.parse(id, text).text()).isEqualTo(text);
    }
  }

  private static List<String> lines(Session session) {
    return TestRecord.of(session, Optional.empty()).text().lines().toList();
  }

  private static String text(List<String> lines) {
    return String.join("\n", lines) + "\n";
  }

  @Test
  void aLineTakenOutPutInOrExchangedIsFound() {
    Session session = Walks.walking(ines(), 105, 110);
    List<String> lines = lines(session);
    List<String> others = lines(Walks.walking(ines(), 106, 110));
    for (int i = 1; i < lines.size() - 1; i++) {
      List<String> without = new ArrayList<>(lines);
      without.remove(i);
      refused(Code.G609, () -> TestRecord.parse("without", text(without)));
      List<String> twice = new ArrayList<>(lines);
      twice.add(i, lines.get(i));
      refused(Code.G609, () -> TestRecord.parse("twice", text(twice)));
      List<String> exchanged = new ArrayList<>(lines);
      exchanged.set(i, lines.get(i + 1));
      exchanged.set(i + 1, lines.get(i));
      refused(Code.G609, () -> TestRecord.parse("exchanged", text(exchanged)));
    }
    List<String> mixed = new ArrayList<>(lines);
    mixed.set(4, others.get(4)); // the same event behind another reading
    assertThat(mixed.get(4)).contains("110.0").isNotEqualTo(lines.get(4));
    refused(Code.G609, () -> TestRecord.parse("mixed", text(mixed)));
  }

  @Test
  void linesCutOffTheEndLeaveARecordThatIsNotOver() {
    Session session = Walks.walking(ines(), 105, 110);
    session.report(at("3:10"), "chest_pain");
    session.follow(session.decide(at("3:10")));
    session.abandon(at("3:30"), "the ambulance is here");
    TestRecord whole = TestRecord.of(session, Optional.empty());
    assertThat(whole.isOver()).isTrue();
    List<String> lines = whole.text().lines().toList();
    for (int end = 1; end < lines.size(); end++) {
      TestRecord cut = TestRecord.parse("cut", text(lines.subList(0, end)));
      assertThat(cut.isOver()).isFalse();
      assertThat(cut.verify(LIBRARY)).isEmpty();
      assertThat(cut.sum()).isNotEqualTo(whole.sum());
    }
    // Whoever marks the cut one as over, with new sums, is found out by its answers.
    List<String> forged = new ArrayList<>();
    lines.subList(0, lines.size() - 2).forEach(line -> forged.add(Sealed.opened(line)));
    String last = forged.remove(forged.size() - 1);
    forged.add(last.substring(0, last.length() - 1) + ", \"over\": true}");
    TestRecord marked = TestRecord.parse("marked", Sealed.lines(forged));
    assertThat(marked.isOver()).isTrue();
    assertThat(marked.verify(LIBRARY)).hasSize(1);
  }

  @Test
  void theSumIsOfEveryCharacter() {
    TestRecord one = TestRecord.of(Walks.walking(ines(), 105, 110), Optional.empty());
    TestRecord other = TestRecord.of(Walks.walking(ines(), 105, 111), Optional.empty());
    assertThat(one.sum()).matches("[0-9a-f]{64}").isNotEqualTo(other.sum());
    assertThat(one.text()).endsWith("\"sum\": \"" + one.sum() + "\"}\n");
    List<String> bare = one.text().lines().map(Sealed::opened).toList();
    assertThat(Sealed.lines(bare)).isEqualTo(one.text());
  }
}
