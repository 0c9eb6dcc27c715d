package org.gradus.examples.workbench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.examples.workbench.Bench.BEGUN;
import static org.gradus.examples.workbench.Bench.OWN;
import static org.gradus.examples.workbench.Bench.bundled;
import static org.gradus.examples.workbench.Bench.run;
import static org.gradus.session.Readings.answer;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.resting;
import static org.gradus.unit.Quantities.kg;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import org.gradus.bundled.Bundled;
import org.gradus.examples.workbench.Bench.Ran;
import org.gradus.protocol.Person;
import org.gradus.session.Ledger;
import org.gradus.session.Phase;
import org.gradus.session.Session;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Whole conversations with a live test. People and readings are invented. */
class LivePromptTest {

  private static final String WALK = "graded-walk-standard";

  @TempDir private Path folder = Path.of("");

  private String events(Path record) {
    return run("", "play", record.toString()).text();
  }

  // A time beyond what any session takes once ended the test, and the next line was never heard.
  @ParameterizedTest
  @ValueSource(strings = {"25:00:00 hr 101", "99:59:59 hr 101", "31:10 hr 101", "25:00:00"})
  void aTimeFarAheadIsRefusedAndTheNextLineIsHeard(String slip) {
    Ran ran = bundled(WALK, BEGUN + "1:00 hr 100\n" + slip + "\n1:10 hr 102\nchest_pain\nquit\n");
    assertThat(ran.text())
        .contains("not recorded: ", "1:10 STOP", "chest-pain")
        .contains("event 5, 1:10: heart_rate 102 bpm")
        .doesNotContain("heart_rate 101");
    assertThat(ran.code()).isZero();
  }

  @Test
  void aTimeFarAheadIsTakenWhenTheClockIsSetFirst() {
    Ran ran = bundled(WALK, BEGUN + "31:10 hr 101\n31:10\n1:30\n1:40 hr 90\nquit\n");
    assertThat(ran.text())
        .contains(
            "31:10 is far ahead of the clock, which stays at 0:00. If the time is right, set the"
                + " clock first: type 31:10 alone")
        .contains("clock: 31:10", "clock: 1:30", "event 4, 1:40: heart_rate 90 bpm");
  }

  @Test
  void aClockIsNotSetBackBeforeWhatWasRecorded() {
    Ran ran = bundled(WALK, BEGUN + "2:00 hr 100\n1:00\n2:05 hr 101\nquit\n");
    assertThat(ran.text())
        .contains("not recorded: G503", "event 5, 2:05: heart_rate 101 bpm")
        .doesNotContain("clock: 1:00");
  }

  @Test
  void aLineThatIsNotUnderstoodDoesNotMoveTheClock() {
    Ran ran = bundled(WALK, BEGUN + "1:00 hr 100\n3:00 hr 700\n3:00 abracadabra\n1:30 hr 101\n");
    assertThat(ran.text()).contains("event 5, 1:30: heart_rate 101 bpm");
  }

  @Test
  void aReadingOfAPastTimeIsRecordedAtThatTimeOrRefused() {
    Path record = folder.resolve("past.jsonl");
    String typed = "1:00 hr 100\n2:27 rpe 10\n1:50 hr 104\n1:50 hr 106\nquit\n";
    Ran ran = bundled(WALK, BEGUN + typed, "--record", record.toString());
    assertThat(ran.text())
        .contains("event 6, 2:27: heart_rate 104 bpm taken at 1:50", "not recorded: G507");
    assertThat(events(record)).contains("2:27  heart_rate 104 bpm taken at 1:50");
  }

  @Test
  void whatCameOutBesidesACapacityIsShownToo() {
    String typed = "6:00 hr 114\n6:00 walked 560\n6:05\n\n7:00 hr 90\n7:05\nabandon: enough\n";
    assertThat(bundled("walk-6min", BEGUN + typed, "--height", "178").text())
        .contains("OVER, abandoned\n")
        .containsPattern("\nDistance walked in six minutes: 560 m, \\d+ % of predicted")
        .doesNotContain("estimate ");
  }

  @Test
  void nothingUnusualAnswersOnlyWhatThisPersonIsAsked() {
    assertThat(bundled(WALK, BEGUN + "quit\n").text())
        .contains("recent_event no, unwell_today no")
        .doesNotContain("pregnant no");
  }

  @Test
  void beforeAPauseItIsSaidThatNoLoadIsSet() {
    Ran ran = bundled("row-steps", BEGUN + "3:50 hr 110\n4:00\n\n5:00\nquit\n");
    assertThat(ran.text())
        .contains("4:00 ADVANCE to pause_1 (next: advance)\n     no load: the person rests\n")
        .contains("5:00 ADVANCE to row_2 at 90 W, 20 /min (pause-over: advance)\nclock: 5:00");
  }

  // What is urgent is never refused for its time, and never silently moved.
  @Test
  void aSignOfAnyTimeIsHeard() {
    String typed = "1:00 hr 100\n2:00 hr 101\n1:30 chest_pain\nquit\n";
    assertThat(bundled(WALK, BEGUN + typed).text())
        .contains("recorded as of now, 2:00, since it cannot be at 1:30", "2:00 STOP");
    assertThat(bundled(WALK, BEGUN + "1:00 hr 100\n25:00:00 chest_pain\nquit\n").text())
        .contains("recorded as of now, 1:00, since it cannot be at 25:00:00", "1:00 STOP");
  }

  @Test
  void aSecondEnterNeverEndsATestAsAnEmergency() {
    Path record = folder.resolve("enter.jsonl");
    String enters = "\n".repeat(8);
    String typed = "1:00 hr 100\n2:15 256/90\n2:50 258/90\n" + enters;
    Ran ran = bundled(WALK, BEGUN + typed + "chest_pain\n" + enters, "--record", record.toString());
    assertThat(ran.text())
        .contains("done: STOP")
        .contains("type follow to do that")
        .doesNotContain("emergency\n")
        .contains("The input has ended", "resume " + record);
    assertThat(ran.code()).isEqualTo(1);
    assertThat(events(record)).containsOnlyOnce("followed STOP");
    Ran resumed = run("follow\nfollow\n", "resume", record.toString(), "--speed", "0");
    assertThat(resumed.text()).contains("STOP", "OVER, emergency");
  }

  @Test
  void whatIsNotShownYetIsNotConfirmed() {
    // At 3:00 the stage is due; the recommendation of that moment has not been seen.
    Ran ran = bundled(WALK, BEGUN + "2:00 hr 100\n3:00 hr 101\n3:00 rpe 9\n4:00 follow\n");
    assertThat(ran.text()).contains("3:00 ADVANCE", "done: ADVANCE");
    Ran late = bundled(WALK, BEGUN + "2:00 hr 100\n2:55 hr 101\n4:40 follow\n4:40 follow\nquit\n");
    assertThat(late.text()).contains("not done yet: this is new");
  }

  @Test
  void stopEndsTheExerciseAtOnceWithOrWithoutAReason() {
    Ran ran = bundled(WALK, BEGUN + "1:00 hr 100\nstop\nstop\nquit\n");
    assertThat(ran.text())
        .contains("done: STOP", "The exercise has ended already", "override stop: why");
    Path record = folder.resolve("stop.jsonl");
    bundled(WALK, BEGUN + "1:00 stop: the belt slips\nquit\n", "--record", record.toString());
    assertThat(events(record)).contains("overridden by STOP: the belt slips");
    assertThat(bundled(WALK, "stop\nquit\n").text()).contains("The exercise has not begun");
  }

  @Test
  void aReadingIsAmendedAndASignWithdrawnAndAnEventUndone() {
    Path record = folder.resolve("amended.jsonl");
    String typed =
        """
        2:00 hr 140
        amend 4 hr 104: misheard
        2:10 chest_pain
        undo: typed by mistake
        2:20 breathless 2
        withdraw breathless: breathes freely again
        2:30 hr 99, rpe 9
        undo 9 rpe: of the other person
        events
        quit
        """;
    Ran ran = bundled(WALK, BEGUN + typed, "--record", record.toString());
    assertThat(ran.text())
        .contains("event 4, 2:00: heart_rate 140 bpm")
        .contains("event 5, 2:00: amended event 4 to heart_rate 104 bpm: misheard")
        .contains("event 6, 2:10: reported chest_pain", "2:10 STOP")
        .contains("event 7, 2:10: undid chest_pain of event 6: typed by mistake", "2:10 CONTINUE")
        .contains("event 9, 2:20: withdrew breathless: breathes freely again")
        .contains("event 10, 2:30: heart_rate 99 bpm, rpe 9")
        .doesNotContain("unexpected");
    assertThat(events(record)).contains("amended event 4 to heart_rate 104 bpm: misheard");
  }

  @Test
  void whoCorrectsWithoutNumberReasonOrEventIsToldHow() {
    String typed =
        """
        amend 4 hr 104
        amend hr 104: misheard
        amend 40 hr 104: misheard
        undo 40: misheard
        undo: misheard
        withdraw chest_pain
        amend 1 hr 66, 120/80: misheard
        quit
        """;
    assertThat(bundled(WALK, BEGUN + typed).text())
        .contains("say why, after a colon: amend 7 heart_rate 112: misheard")
        .contains("hr is not the number of an event; events lists them")
        .contains("there is no event 40", "event 40")
        .contains("event 3 (followed READY) cannot be undone")
        .contains("say why, after a colon: withdraw chest_pain: gone after sitting down")
        .contains("give the number of the event, one reading and the reason");
  }

  @Test
  void whoeverTypesInAHurryIsUnderstood() {
    assertThat(bundled(WALK, BEGUN + "1:00 Chest pain\nquit\n").text())
        .contains("reported chest_pain", "STOP");
    assertThat(bundled(WALK, BEGUN + "1:00 chest-pain\nquit\n").text()).contains("1:00 STOP");
    assertThat(bundled(WALK, BEGUN + "1:00 heart rate 140\n1:05 hr141\nquit\n").text())
        .contains("heart_rate 140 bpm", "heart_rate 141 bpm");
    assertThat(bundled(WALK, BEGUN + "1:00 blood pressure 140/80\nquit\n").text())
        .contains("systolic 140 mmHg, diastolic 80 mmHg");
  }

  @Test
  void whatCouldBeASignIsAnsweredWithTheWordToUse() {
    String typed =
        """
        1:00 dizzy
        she feels dizzy
        nausea
        no chest pain
        chest_pain gone
        breathless
        p
        140
        ok
        finish
        quit
        """;
    assertThat(bundled(WALK, BEGUN + typed).text())
        .contains("not understood: dizzy (type light_headed to report: Dizzy or light-headed?)")
        .contains("not understood: she feels dizzy (type light_headed")
        .contains("not understood: nausea (type pale_or_cold to report: ")
        .contains("withdraw SIGN: why, when one is over")
        .contains("withdraw chest_pain: why, when it is over")
        .contains("breathless needs its grade, 0 to 4: breathless GRADE")
        .contains("say what it is, such as heart_rate 112")
        .contains("override finish: why")
        .doesNotContain("STOP:")
        .doesNotContain("event 4");
  }

  @Test
  void helpAndWhatListTheSignsOfTheProtocol() {
    for (String asked : new String[] {"?", "help", "what"}) {
      assertThat(bundled(WALK, asked + "\nquit\n").text())
          .as(asked)
          .contains("ask: Anything in the chest, arm, neck or jaw? -> chest_pain")
          .contains("ask: How is the breathing? -> breathless GRADE (0 to 4)")
          .contains("watch: The person asks to stop -> asks_to_stop");
    }
  }

  @Test
  void cuesAndQuestionsAppearByThemselvesWhenTheyAreDue() {
    String text = bundled(WALK, BEGUN + "2:00 hr 100\n2:20 rpe 9\n2:31 240/80\nquit\n").text();
    assertThat(text.substring(text.indexOf("done: READY")))
        .containsOnlyOnce("2:10 say: Keep the cuff arm hanging loose")
        .containsOnlyOnce("2:30 say: Ask how it goes, and listen")
        .containsOnlyOnce("ask: Anything in the chest, arm, neck or jaw? -> chest_pain");
    assertThat(text.indexOf("2:30 say: ")).isGreaterThan(text.indexOf("event 5, 2:20"));
    // Recovery has no decision that is near: they appear at its start and every three minutes.
    String recovery = "1:00 stop\n2:00 hr 90\n4:05 hr 88\nquit\n";
    String stopped = bundled(WALK, BEGUN + recovery).text();
    assertThat(stopped.substring(stopped.indexOf("done: STOP")).split("-> chest_pain", -1))
        .hasSize(3);
  }

  @Test
  void nothingUnusualAnswersOnlyWhatIsUnusual() {
    String maximal = bundled("graded-walk-maximal", "nothing unusual\nwhat\nquit\n").text();
    assertThat(maximal)
        .contains("unwell_today no", "recent_event no")
        .doesNotContain("supervised no")
        .contains("-> supervised ...");
    String cycle = bundled("cycle-single-load-6min", "nothing unusual\nquit\n").text();
    assertThat(cycle).contains("unwell_today no").doesNotContain("conditioned no");
    // What was answered stays as it was answered.
    String ill = "unwell_today yes\nnothing unusual\nnothing unusual\nquit\n";
    assertThat(bundled(WALK, ill).text())
        .contains("DEFER: unwell", "no open question is about something unusual")
        .doesNotContain("unwell_today no");
  }

  @Test
  void aSlipInAHurryIsAnsweredWithWhatToType() {
    String before = "ok\ncleared yes\nresting hr 65 bp 120/80\n";
    assertThat(bundled(WALK, before + "quit\n").text())
        .contains("not understood: ok (press Enter to confirm what is recommended)")
        .contains("cleared is given when a test is started: quit, and run it again with --cleared")
        .contains("not a value: 65 bp 120/80; put a comma between two readings: hr 70, 120/80");
    String during = "2:00 hr 98\n2:10 he is dizzy\n2:20 hr 114 at 2:05\n2:30 undo\nquit\n";
    assertThat(bundled(WALK, BEGUN + during).text())
        .contains("not understood: he is dizzy (type light_headed to report: ")
        .contains("not a value: 114 at 2:05; put the time first, as in: 4:05 hr 114")
        .contains("say why, after a colon: undo 4: typed twice");
    String alarm = "1:00 speed 3\n1:10 bp 140/\n1:20 emergency\n1:30 STOP!\nquit\n";
    assertThat(bundled(WALK, BEGUN + alarm).text())
        .contains("not understood: speed 3 (to say what is really set: load speed 3)")
        .contains("not understood: bp 140/ (write both pressures: bp 140/80)")
        .contains("not understood: emergency (type stop to end the exercise at once)")
        .contains("done: STOP");
  }

  // A test that has not begun is not over by an Enter too many.
  @Test
  void enterDoesNotDefer() {
    String text = bundled(WALK, "unwell_today yes\n\n\nfollow\n").text();
    assertThat(text)
        .contains("not done: DEFER ends the test before it has begun; type follow to do that")
        .containsOnlyOnce("\ndone: DEFER")
        .contains("OVER, deferred");
  }

  @Test
  void aClosedInputLeavesTheTestWithAWord() {
    Ran ran = bundled(WALK, BEGUN + "1:00 hr 100\n");
    assertThat(ran.text())
        .contains("The input has ended, so the test is left as it stands at 1:00; it is not over.")
        .contains("It is not recorded; run with --record FILE keeps a record.");
    assertThat(ran.code()).isEqualTo(1);
  }

  @Test
  void anEndlessLineIsRefusedAfterBoundedWork() {
    assertThat(bundled(WALK, BEGUN + "x".repeat(3_000) + "\n1:00 chest_pain\nquit\n").text())
        .contains("the line is longer than 2000 characters", "1:00 STOP");
    assertThat(bundled(WALK, BEGUN + "\0".repeat(1_100_000)).text())
        .contains("the input is not lines of text");
  }

  private static Session begun(Ledger ledger) {
    Person person =
        Person.builder()
            .age(40)
            .sex(Person.Sex.MALE)
            .mass(kg(70))
            .cleared(true)
            .lowersHeartRate(false)
            .build();
    Session session = Session.open(Bundled.library().protocol(WALK), person, ledger);
    session.record(
        Duration.ZERO,
        resting(heartRate(65)),
        resting(pressure(120, 80)),
        answer("unwell_today", false),
        answer("recent_event", false));
    session.follow(session.decide(Duration.ZERO));
    return session;
  }

  private static LivePrompt live(
      Session session, StringWriter text, boolean watched, long[] nanos) {
    PrintWriter out = new PrintWriter(text, true);
    return new LivePrompt(
        session,
        new Screen(PlainWriter.before(out), out, watched, 400),
        new TestClock(watched ? 1 : 0, Duration.ZERO, () -> nanos[0]),
        Optional.of(Path.of("kept.jsonl")));
  }

  // A defect anywhere below must not take the screen from whoever stands beside the treadmill.
  @Test
  void anUnforeseenErrorIsShownOnceAndTheTestGoesOn() {
    boolean[] broken = {false};
    Session session =
        begun(
            (number, event, answer) -> {
              if (broken[0]) {
                throw new IndexOutOfBoundsException("a defect");
              }
            });
    StringWriter text = new StringWriter();
    LivePrompt live = live(session, text, false, new long[1]);
    broken[0] = true;
    live.typed("1:00 hr 100");
    broken[0] = false;
    live.typed("1:00 chest_pain");
    assertThat(text.toString())
        .containsOnlyOnce("unexpected error: java.lang.IndexOutOfBoundsException: a defect. The")
        .contains("Go on with: workbench resume kept.jsonl", "1:00 STOP");
    assertThat(live.isOver()).isFalse();
    assertThat(live.isLeft()).isFalse();
  }

  // What fails at each second, though all else works, is shown once and not each second.
  @Test
  void anErrorOfEachSecondIsShownOnce() {
    StringWriter text = new StringWriter();
    PrintWriter terminal =
        new PrintWriter(text, true) {
          @Override
          public void print(String what) {
            if (what.startsWith("\0337")) {
              throw new IllegalStateException("a defect of the screen");
            }
            super.print(what);
          }
        };
    Screen screen = new Screen(PlainWriter.before(terminal), terminal, true, 400);
    TestClock clock = new TestClock(1, Duration.ZERO, () -> 0);
    LivePrompt live = new LivePrompt(begun(Ledger.NONE), screen, clock, Optional.empty());
    for (int second = 0; second < 5; second++) {
      live.tick();
    }
    assertThat(text.toString())
        .containsOnlyOnce("a defect of the screen")
        .contains("It is not recorded; run with --record FILE keeps a record.");
  }

  // Beyond a day no time is taken; the clock got there by itself.
  @Test
  void aClockThatRunsPastEveryTestDoesNotEndIt() {
    long[] nanos = {0};
    StringWriter text = new StringWriter();
    LivePrompt live = live(begun(Ledger.NONE), text, true, nanos);
    nanos[0] = Duration.ofHours(25).toNanos();
    live.tick();
    live.tick();
    live.typed("hr 90");
    live.typed("2:00");
    live.typed("chest_pain");
    assertThat(text.toString()).contains("G502", "clock: 2:00", "2:00 STOP");
    assertThat(live.isOver()).isFalse();
  }

  // At a terminal, a key pressed for what was shown before does not confirm what has just appeared.
  @Test
  void enterConfirmsOnlyWhatThereWasTimeToRead() {
    long[] nanos = {0};
    StringWriter text = new StringWriter();
    Session session = begun(Ledger.NONE);
    LivePrompt live = live(session, text, true, nanos);
    live.announce();
    nanos[0] = Duration.ofSeconds(60).toNanos();
    live.typed("chest_pain");
    nanos[0] += Duration.ofMillis(300).toNanos();
    live.typed("");
    assertThat(session.phase()).isEqualTo(Phase.STAGE);
    assertThat(text.toString()).contains("not done yet: this is new");
    nanos[0] += Duration.ofMillis(900).toNanos();
    live.typed("");
    assertThat(session.phase()).isEqualTo(Phase.RECOVERY);
  }

  @Test
  void atATerminalATimeIsFarAheadSooner() {
    StringWriter text = new StringWriter();
    LivePrompt live = live(begun(Ledger.NONE), text, true, new long[1]);
    live.typed("8:10 hr 100");
    live.typed("1:50 hr 101");
    assertThat(text.toString())
        .contains("8:10 is far ahead of the clock, which stays at 0:00", "1:50: heart_rate 101");
  }

  @Test
  void howAMileEndsIsShownWhenItBegins() {
    Ran ran = bundled("track-walk-1mile", BEGUN + "14:00\ndone\nquit\n");
    assertThat(ran.text())
        .containsOnlyOnce("when this is done: type done, and read at once: heart_rate")
        .contains("14:00 FINISH (done: finish)");
  }

  @Test
  void signsAreAskedAboutBeforeTheTest() {
    assertThat(bundled(WALK, "quit\n").text()).contains("ask: Dizzy or light-headed?");
  }

  private static LivePrompt unrecorded(Session session, StringWriter text) {
    PrintWriter out = new PrintWriter(text, true);
    Screen screen = new Screen(PlainWriter.before(out), out, true, 400);
    return new LivePrompt(
        session, screen, new TestClock(1, Duration.ZERO, () -> 0), Optional.empty());
  }

  @Test
  void quitAsksOnceMoreBeforeAnUnrecordedTestIsLost() {
    StringWriter text = new StringWriter();
    LivePrompt live = unrecorded(begun(Ledger.NONE), text);
    live.typed("hr 100");
    live.typed("quit");
    assertThat(live.isLeft()).isFalse();
    assertThat(text.toString())
        .contains("this test is not recorded, and its 3 events would be lost", "save FILE");
    live.typed("hr 101"); // G507, so that nothing has changed
    live.typed("chest_pain");
    live.typed("quit");
    assertThat(live.isLeft()).isFalse();
    live.typed("quit");
    assertThat(live.isLeft()).isTrue();
  }

  @Test
  void whatWasSavedIsLeftAtOnceAndCanBeResumed() {
    StringWriter text = new StringWriter();
    LivePrompt live = unrecorded(begun(Ledger.NONE), text);
    live.typed("hr 100");
    Path file = folder.resolve("kept.jsonl");
    live.typed("save");
    live.typed("save " + file);
    live.typed("save " + file);
    live.typed("quit");
    assertThat(live.isLeft()).isTrue();
    assertThat(text.toString())
        .contains("name a new file, as in: save walk.jsonl", "saved 3 events in " + file)
        .contains("cannot write " + file);
    Ran resumed = run("2:00 hr 104\nquit\n", "resume", file.toString(), "--speed", "0");
    assertThat(resumed.text()).contains("event 4, 2:00: heart_rate 104 bpm");
  }

  @Test
  void aTestThatIsOverIsKeptOpenUntilItIsSavedOrLeft() {
    StringWriter text = new StringWriter();
    LivePrompt live = unrecorded(begun(Ledger.NONE), text);
    live.typed("abandon: a fire alarm");
    assertThat(live.isOver()).isTrue();
    assertThat(live.hasUnsavedEvents()).isTrue();
    live.offerToSave();
    Path file = folder.resolve("over.jsonl");
    live.typed("save " + file);
    assertThat(live.hasUnsavedEvents()).isFalse();
    assertThat(text.toString()).contains("Its report: workbench report " + file);
    assertThat(events(file)).contains("a fire alarm");
  }

  // A script says what it means; it cannot answer.
  @Test
  void aScriptIsNotAsked() {
    assertThat(bundled(WALK, BEGUN + "1:00 hr 100\nquit\n").code()).isZero();
  }

  @Test
  void theFolderOfOnesOwnIsTakenTheSameWay() {
    assertThat(bundled("canal-walk", BEGUN + "1:00 dizzy\nquit\n", "--folder", OWN).text())
        .contains("type light_headed");
  }
}
