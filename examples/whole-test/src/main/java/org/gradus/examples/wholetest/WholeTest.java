package org.gradus.examples.wholetest;

import static org.gradus.session.Readings.answer;
import static org.gradus.session.Readings.chosen;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.pulse;
import static org.gradus.session.Readings.rating;
import static org.gradus.session.Readings.resting;
import static org.gradus.session.Times.at;
import static org.gradus.session.Times.seconds;
import static org.gradus.unit.Quantities.hours;
import static org.gradus.unit.Quantities.kg;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.gradus.bundled.Bundled;
import org.gradus.capacity.Capacity;
import org.gradus.diagnostic.VerdictRefused;
import org.gradus.history.Journal;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.protocol.Person.Sex;
import org.gradus.protocol.Protocol;
import org.gradus.report.Report;
import org.gradus.session.Decision;
import org.gradus.session.Reading;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.jspecify.annotations.Nullable;

/**
 * The scene: a man of 58 years, invented like his readings, comes to a walking test on two days.
 * The first time his pressure is too high; the second time nearly everything happens that can.
 */
public final class WholeTest {

  private static final Reading[] QUESTIONS = {
    answer("unwell_today", false),
    answer("recent_event", false),
    answer("since_meal", hours(2)),
    answer("since_stimulant", hours(8))
  };

  private final Library library = Bundled.library();
  private final Protocol walk = library.protocol("graded-walk-standard");
  private final Person person =
      Person.builder()
          .age(58)
          .sex(Sex.MALE)
          .mass(kg(88))
          .cleared(true)
          .lowersHeartRate(false)
          .build();
  private final StringBuilder out = new StringBuilder();
  private @Nullable Report ended;

  private WholeTest() {}

  /**
   * Plays the scene.
   *
   * @param arguments none, or the name of a file into which the report of the second day is
   *     written: as HTML if it ends so, else as plain text
   */
  public static void main(String[] arguments) throws IOException {
    System.out.print(play());
    if (arguments.length > 0) {
      Path file = Path.of(arguments[0]);
      Report report = report();
      Files.writeString(file, arguments[0].endsWith(".html") ? report.html() : report.text());
      System.out.println("The report of the second day is in " + file.toAbsolutePath());
    }
  }

  /**
   * The report of the second day, with norms and a training plan: a physician has cleared her
   * since, without which a test that was stopped gives no plan.
   */
  static Report report() {
    WholeTest scene = new WholeTest();
    scene.secondDay();
    return Optional.ofNullable(scene.ended).orElseThrow().clearedAfterStop();
  }

  static String play() {
    WholeTest scene = new WholeTest();
    scene.out.append(
        "Advice to a trained person who decides; no medical device. Clearance, an emergency plan and\n");
    scene.out.append("local rules come first. The person and the readings are invented.\n\n");
    scene.firstDay();
    scene.secondDay();
    return scene.out.toString();
  }

  private void firstDay() {
    Session session = Session.open(walk, person);
    Narrator told = new Narrator(session, out);
    told.line("The first day");
    told.tell("the questions are answered", s -> s.record(at("0:00"), QUESTIONS));
    Decision defer =
        told.tell(
            "at rest: 72 bpm, 186/96 mmHg",
            s -> s.record(at("0:30"), resting(heartRate(72)), resting(pressure(186, 96))));
    told.follow(defer);
    TestRecord record = TestRecord.of(session, Optional.empty());
    told.line(
        "The record of that day has "
            + record.entries().size()
            + " events and ends "
            + session.decide(at("1:00")).verdict()
            + ".\n");
  }

  private void secondDay() {
    Path file = journalFile();
    try (Journal journal = Journal.create(file, walk, person, Optional.empty())) {
      Session session = Session.open(walk, person, journal);
      Narrator told = new Narrator(session, out);
      told.line("The second day");
      begin(told);
      firstStage(told);
      secondStage(told, session);
      recovery(told);
      told.line("");
      Capacity.of(session.outcome()).estimates().forEach(estimate -> told.line(shown(estimate)));
      ended =
          Report.of(session)
              .identity("Invented person, second day")
              .norms(library.norms())
              .bands(library.bands("bands-2011"));
      check(file, told);
    }
    delete(file);
  }

  private static void begin(Narrator told) {
    told.tell("the questions are answered", s -> s.record(at("0:00"), QUESTIONS));
    Decision ready =
        told.tell(
            "at rest: 68 bpm, 138/84 mmHg",
            s -> s.record(at("0:00"), resting(heartRate(68)), resting(pressure(138, 84))));
    told.follow(ready);
  }

  private static void firstStage(Narrator told) {
    told.tell("24 beats in 15 s", s -> s.record(at("1:00"), pulse(24, seconds(15))));
    Decision misheard =
        told.tell(
            "34 beats in 15 s, as it was called out",
            s -> s.record(at("2:00"), pulse(34, seconds(15))));
    told.tell(
        "... it was 24: amended",
        s -> s.amend(at("2:10"), misheard.event(), pulse(24, seconds(15)), "misheard"));
    told.tell(
        "effort 10, walking",
        s -> s.record(at("2:48"), rating(10, "rpe_6_20"), chosen("gait", "walking")));
    Decision hold =
        told.tell("26 beats in 15 s", s -> s.record(at("3:00"), pulse(26, seconds(15))));
    told.follow(hold);
    told.tell(
        "cuff 152/86, read at 2:52 and typed at 3:25",
        s -> s.recordTaken(at("3:25"), at("2:52"), pressure(152, 86)));
    Decision advance =
        told.tell("27 beats in 15 s", s -> s.record(at("4:00"), pulse(27, seconds(15))));
    told.follow(advance);
  }

  private static void secondStage(Narrator told, Session session) {
    told.tell("30 beats in 15 s", s -> s.record(at("5:00"), pulse(30, seconds(15))));
    told.tell("31 beats in 15 s", s -> s.record(at("6:00"), pulse(31, seconds(15))));
    told.tell("cuff 256/92", s -> s.record(at("6:20"), pressure(256, 92)));
    told.tell(
        "cuff again, 186/88",
        s ->
            s.record(
                at("6:55"), pressure(186, 88), rating(13, "rpe_6_20"), chosen("gait", "walking")));
    Decision finish =
        told.tell("31 beats in 15 s", s -> s.record(at("7:00"), pulse(31, seconds(15))));
    told.line("         overridden: one more minute, to be sure of the rate");
    session.override(
        finish.at(), new Verdict.Hold(at("8:00")), "one more minute, to be sure of the rate");
    told.tell("32 beats in 15 s", s -> s.record(at("8:00"), pulse(32, seconds(15))));
    Decision stop = told.tell("light in the head", s -> s.report(at("8:20"), "light_headed"));
    told.follow(stop);
    try {
      session.override(at("8:25"), new Verdict.Advance("walk_3"), "feels better");
    } catch (VerdictRefused refused) {
      told.line("8:25  he wants to go on: refused, " + refused.getMessage());
    }
  }

  private static void recovery(Narrator told) {
    told.tell("28 beats in 15 s", s -> s.record(at("9:20"), pulse(28, seconds(15))));
    told.tell(
        "25 beats in 15 s, cuff 150/84",
        s -> s.record(at("10:20"), pulse(25, seconds(15)), pressure(150, 84)));
    told.tell(
        "the head is clear again",
        s -> s.withdraw(at("11:00"), "light_headed", "gone after lying down for two minutes"));
    told.ask("how much longer?", at("12:00"));
    Decision end =
        told.tell(
            "22 beats in 15 s, cuff 142/82",
            s -> s.record(at("13:30"), pulse(22, seconds(15)), pressure(142, 82)));
    told.follow(end);
  }

  private static String shown(org.gradus.capacity.Estimate estimate) {
    return estimate instanceof org.gradus.capacity.Estimate.Available available
        ? estimate.id()
            + ": "
            + available.vo2max().rounded(1)
            + available.interval().map(around -> ", 95 % interval " + around).orElse("")
            + "; "
            + String.join("; ", available.cautions())
        : estimate.id() + ": none; " + String.join("; ", estimate.reasons());
  }

  private void check(Path file, Narrator told) {
    try {
      TestRecord record = TestRecord.parse("second day", Files.readString(file));
      List<TestRecord.Difference> differences = record.verify(library);
      told.line(
          "\nThe journal has "
              + record.entries().size()
              + " events; run again they are answered "
              + (differences.isEmpty() ? "exactly as recorded." : "otherwise: " + differences));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static Path journalFile() {
    try {
      return Files.createTempDirectory("gradus").resolve("second-day.jsonl");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void delete(Path file) {
    try {
      Files.delete(file);
      Files.delete(java.util.Objects.requireNonNull(file.getParent()));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
