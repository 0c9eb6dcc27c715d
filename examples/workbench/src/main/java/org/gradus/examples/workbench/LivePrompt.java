package org.gradus.examples.workbench;

import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Interval;
import org.gradus.capacity.Result;
import org.gradus.diagnostic.GradusException;
import org.gradus.history.TestRecord;
import org.gradus.protocol.Stage;
import org.gradus.session.Agenda;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Loading;
import org.gradus.session.Phase;
import org.gradus.session.Reading;
import org.gradus.session.Readings;
import org.gradus.session.Session;
import org.gradus.session.Times;
import org.gradus.session.Verdict;

/**
 * A test at the terminal: records what is typed and shows what is decided. Nothing that is typed,
 * and no error, ends it but {@code quit} and what ends the test itself.
 */
final class LivePrompt {

  private static final Pattern TIMED = Pattern.compile("([0-9]+(?::[0-9]*){1,2})(?:\\s+(.*))?");
  // The colon before a reason; the one in 2:00 is none.
  private static final Pattern REASON = Pattern.compile("\\s*:(?![0-5][0-9]\\b)\\s*");
  // At a terminal the clock runs beside the person; a script types the times of a whole test.
  private static final Duration FARTHEST_TYPED = Duration.ofMinutes(2);
  private static final Duration FARTHEST_SCRIPTED = Duration.ofMinutes(10);
  private static final Duration TO_READ = Duration.ofSeconds(1);
  private static final Set<String> VERDICTS =
      Set.of("finish", "advance", "hold", "end", "begin", "defer", "continue");
  // What people type who agree.
  private static final Set<String> AGREEMENT =
      Set.of("ok", "okay", "yes", "y", "go", "start", "next", "ready");
  private static final Set<String> ALARM = Set.of("emergency", "halt", "abort");
  private static final Set<String> KNOWN_OF_THE_PERSON =
      Set.of("cleared", "age", "sex", "mass", "height", "slowed");
  private static final String NOTHING_UNUSUAL = "nothing unusual";

  private static final List<String> HELP =
      List.of(
          "heart_rate 112            a reading, in its usual unit; also: heart rate 112, hr 112",
          "pulse 28 15               28 beats in 15 seconds",
          "systolic 140, diastolic 80    readings taken together; also: 140/80",
          "resting heart_rate 68, 122/80    readings before the test; also: upright ...",
          "unwell_today no           an answer",
          "nothing unusual           no to every open question about something unusual",
          "chest_pain / breathless 3 reports a sign; this protocol's signs are listed below",
          "withdraw chest_pain: why  the sign is over",
          "stop: why                 ends the exercise at once",
          "cleared_after_stop yes    in recovery: cleared, so that a training plan may be printed",
          "load speed 3.5 mph        the load that is really set, where it differs",
          "done                      what this stage asks for is done: the mile is walked",
          "Enter                     confirms the recommendation that is shown",
          "follow                    the same, also where it ends the test: DEFER, STOP in recovery",
          "offer                     does what is offered instead",
          "override finish: why      finish, stop, advance STAGE, hold M:SS or continue instead;",
          "                          before the test begin STAGE or defer; in recovery end",
          "abandon: why              breaks the test off",
          "events                    what was recorded, with the numbers of events",
          "amend 7 hr 112: why       corrects the reading of event 7",
          "undo 7: why               takes event 7 back; undo: why takes back the last one",
          "why                       the rule, its figures and its source",
          "what                      what to read and to ask until the next decision",
          "3:00 heart_rate 112       a reading taken at 3:00 of the test's clock",
          "3:00                      sets the clock",
          "save FILE                 writes what was recorded so far to a new file",
          "quit                      leaves; a recorded or saved test can be resumed");

  private final Session session;
  private final Screen screen;
  private final TestClock clock;
  private final Optional<Path> record;
  private final TypedReadings readings;
  private final TypedNames vocabulary;
  private final Reminders reminders;
  private final Duration farthest;
  private String shown = "";
  private Duration shownAt = Duration.ZERO;
  private String trouble = "";
  private boolean left;
  // How many events were kept by save, and how many there were when quit was last answered.
  private int saved;
  private int warned = -1;

  /**
   * A live test.
   *
   * @param record the file it is recorded in, if it is
   */
  LivePrompt(Session session, Screen screen, TestClock clock, Optional<Path> record) {
    this.session = session;
    this.screen = screen;
    this.clock = clock;
    this.record = record;
    this.readings = new TypedReadings(session);
    this.vocabulary = new TypedNames(session.protocol());
    this.reminders = new Reminders(session.protocol().instruments());
    this.farthest = screen.isWatched() ? FARTHEST_TYPED : FARTHEST_SCRIPTED;
  }

  boolean isLeft() {
    return left;
  }

  boolean isOver() {
    return session.phase() == Phase.ENDED;
  }

  /** Whether events would be lost to the person at the terminal if the program ended now. */
  boolean hasUnsavedEvents() {
    return screen.isWatched() && record.isEmpty() && session.events().size() > saved;
  }

  /** Says how to keep a test that is over and is recorded nowhere. */
  void offerToSave() {
    screen.print("This test is not recorded. save FILE keeps it; quit leaves without.");
    warned = session.events().size();
    refresh();
  }

  /** Shows what is recommended now and what there is to do. */
  void announce() {
    guarded(
        () -> {
          Decision decision = session.decide(clock.now());
          show(decision);
          if (session.phase() == Phase.BEFORE) {
            what(decision);
          }
        });
    refresh();
  }

  /** Looks at the test again, as each second does. */
  void tick() {
    guarded(
        () -> {
          if (show(session.decide(clock.now()))) {
            screen.ring();
          }
        });
    refresh();
  }

  /** Takes in a line that was typed. */
  void typed(String line) {
    screen.entered();
    trouble = "";
    guarded(() -> take(line.strip()));
    if (!left && (!isOver() || hasUnsavedEvents())) {
      refresh();
    }
  }

  /** Says that no further line can come, and how to go on. */
  void inputEnded() {
    screen.entered();
    screen.print(
        "The input has ended, so the test is left as it stands at "
            + Times.clock(clock.now())
            + "; it is not over. "
            + goOn());
  }

  /** Shows what came of the test. */
  void result() {
    screen.entered();
    guarded(
        () -> {
          Capacity capacity = Capacity.of(session.outcome());
          capacity
              .headline()
              .ifPresent(
                  best ->
                      print(
                          "estimate " + best.vo2max().rounded(1) + " (" + best.id() + ")",
                          best.interval(),
                          best.cautions()));
          for (Result result : capacity.results()) {
            print(result.title() + ": " + result.message(), result.interval(), result.warnings());
          }
        });
  }

  private void print(String answer, Optional<Interval> interval, List<?> cautions) {
    screen.print(answer);
    interval.ifPresent(around -> screen.print("  95 % interval " + around));
    cautions.forEach(caution -> screen.print("  " + caution));
  }

  private String goOn() {
    return record
        .map(file -> "Go on with: workbench resume " + file)
        .orElse("It is not recorded; run with --record FILE keeps a record.");
  }

  // An error of each second is shown once, until something is typed.
  private void guarded(Runnable step) {
    try {
      step.run();
    } catch (GradusException | IllegalArgumentException refused) {
      tell("not recorded: " + refused.getMessage());
    } catch (UncheckedIOException failed) {
      tell(String.valueOf(failed.getMessage()));
    } catch (RuntimeException | StackOverflowError unforeseen) {
      tell(
          "unexpected error: "
              + unforeseen
              + ". The test goes on; until this is mended decide without the workbench. What was"
              + " recorded is kept. "
              + goOn());
    }
  }

  private void tell(String problem) {
    if (!problem.equals(trouble)) {
      screen.print(problem);
      screen.ring();
      trouble = problem;
    }
  }

  private void refresh() {
    guarded(
        () -> {
          Decision decision = session.decide(clock.now());
          List<String> due = reminders.due(decision);
          due.forEach(line -> screen.print("  " + line));
          if (!due.isEmpty()) {
            screen.ring();
          }
          screen.paint(decision, session.events());
        });
  }

  private void take(String line) {
    if (line.length() > TypedLines.LONGEST) {
      throw new IllegalArgumentException(
          "the line is longer than " + TypedLines.LONGEST + " characters; type a shorter one");
    }
    Matcher timed = TIMED.matcher(line);
    if (!timed.matches()) {
      act(line, clock.now(), clock.now());
      return;
    }
    Duration time = Times.at(timed.group(1));
    String text = Optional.ofNullable(timed.group(2)).orElse("").strip();
    if (text.isEmpty()) {
      setClock(time);
    } else {
      actAt(text, time);
    }
  }

  private void setClock(Duration time) {
    Decision then = session.decide(time);
    clock.set(time);
    show(then);
    screen.print("clock: " + Times.clock(time));
  }

  // The clock moves only with a line that was understood.
  private void actAt(String text, Duration time) {
    Duration now = clock.now();
    boolean far = time.minus(now).compareTo(farthest) > 0;
    boolean urgent = isUrgent(text);
    if (far && !urgent) {
      throw new IllegalArgumentException(
          Times.clock(time)
              + " is far ahead of the clock, which stays at "
              + Times.clock(now)
              + ". If the time is right, set the clock first: type "
              + Times.clock(time)
              + " alone");
    }
    boolean outOfOrder = time.compareTo(lastEvent()) < 0;
    if (urgent && (far || outOfOrder)) {
      screen.print(
          "recorded as of now, " + Times.clock(now) + ", since it cannot be at " + clock(time));
      act(text, now, now);
    } else if (time.compareTo(now) >= 0) {
      act(text, time, time);
      if (time.compareTo(clock.now()) > 0) {
        clock.set(time);
      }
    } else if (isReading(text)) {
      act(text, now, time);
    } else {
      act(text, time, time);
    }
  }

  private static String clock(Duration time) {
    return Times.clock(time);
  }

  private Duration lastEvent() {
    List<Event> events = session.events();
    return events.isEmpty() ? Duration.ZERO : events.get(events.size() - 1).at();
  }

  private boolean isUrgent(String text) {
    return command(text).equals("stop") || isReport(text);
  }

  private boolean isReport(String text) {
    return !isCommand(text) && vocabulary.report(text).isPresent();
  }

  private boolean isReading(String text) {
    return command(text).equals("done") || (!isCommand(text) && !isReport(text));
  }

  private static String command(String text) {
    return text.split("[ :!]", 2)[0].toLowerCase(Locale.ROOT);
  }

  private static boolean isCommand(String text) {
    return switch (command(text)) {
      case "?",
          "help",
          "",
          "follow",
          "offer",
          "why",
          "what",
          "events",
          "load",
          "done",
          "stop",
          "abandon",
          "override",
          "amend",
          "undo",
          "withdraw",
          "save",
          "quit",
          "exit" ->
          true;
      default -> false;
    };
  }

  /**
   * Does what a line says.
   *
   * @param at when it is told
   * @param taken when it was read or done; not after {@code at}
   */
  private void act(String text, Duration at, Duration taken) {
    String rest = text.substring(command(text).length());
    switch (command(text)) {
      case "?", "help" -> help();
      case "" -> confirm(at, false);
      case "follow" -> confirm(at, true);
      case "offer" -> offer(at);
      case "why" -> Explanation.lines(session.decide(at)).forEach(screen::print);
      case "what" -> {
        what(session.decide(at));
        vocabulary.signs().forEach(line -> screen.print("  " + line));
      }
      case "events" -> events(0);
      case "load" -> recording(() -> session.loadSet(at, readings.load(rest)));
      case "done" -> recording(() -> session.done(at, taken));
      case "stop" -> stop(at, reason(rest));
      case "abandon" -> {
        session.abandon(at, reason(rest));
        show(session.decide(at));
      }
      case "override" -> override(at, rest);
      case "amend" -> amend(at, rest);
      case "undo" -> undo(at, rest);
      case "withdraw" -> withdraw(at, rest);
      case "save" -> save(rest.strip());
      case "quit", "exit" -> quit();
      default -> tell(text, at, taken);
    }
  }

  private void save(String name) {
    if (record.isPresent()) {
      screen.print("nothing to save: each event is recorded in " + record.get() + " already");
      return;
    } else if (name.isEmpty()) {
      throw new IllegalArgumentException("name a new file, as in: save walk.jsonl");
    }
    Path file = Path.of(name);
    OutputFile.create(file, TestRecord.of(session, Optional.empty()).text());
    saved = session.events().size();
    screen.print(
        "saved "
            + saved
            + " events in "
            + file
            + "; later ones are not in it. "
            + (isOver() ? "Its report: workbench report " : "Go on with it: workbench resume ")
            + file);
  }

  private void quit() {
    int events = session.events().size();
    if (!hasUnsavedEvents() || warned == events) {
      left = true;
    } else {
      warned = events;
      screen.print(
          "not left yet: this test is not recorded, and its "
              + events
              + " events would be lost. save FILE keeps them; type quit again to leave without");
    }
  }

  private void tell(String text, Duration at, Duration taken) {
    if (text.equalsIgnoreCase(NOTHING_UNUSUAL)) {
      recording(() -> nothingUnusual(at));
      return;
    }
    if (VERDICTS.contains(command(text))) {
      throw TypedNames.notUnderstood(
          text,
          "press Enter to confirm what is recommended, or override it: override "
              + command(text)
              + ": why");
    }
    if (AGREEMENT.contains(text.toLowerCase(Locale.ROOT))) {
      throw TypedNames.notUnderstood(text, "press Enter to confirm what is recommended");
    }
    if (ALARM.contains(command(text))) {
      throw TypedNames.notUnderstood(text, "type stop to end the exercise at once");
    }
    if (session.outcome().load().stream().anyMatch(load -> load.name().equals(command(text)))) {
      throw TypedNames.notUnderstood(text, "to say what is really set: load " + text);
    }
    if (KNOWN_OF_THE_PERSON.contains(command(text))) {
      throw new IllegalArgumentException(
          command(text)
              + " is given when a test is started: quit, and run it again with --"
              + command(text));
    }
    Optional<TypedNames.Report> report = vocabulary.report(text);
    if (report.isPresent()) {
      String sign = report.get().sign();
      recording(
          () ->
              report.get().grade().isPresent()
                  ? session.report(at, sign, report.get().grade().getAsInt())
                  : session.report(at, sign));
      return;
    }
    Reading[] read = readings.line(text).toArray(Reading[]::new);
    recording(() -> session.recordTaken(at, taken, read));
  }

  private Decision nothingUnusual(Duration at) {
    List<String> questions = UnusualQuestions.open(session, at);
    if (questions.isEmpty()) {
      throw new IllegalArgumentException(
          "no open question is about something unusual; type what to see what is to be answered");
    }
    return session.record(
        at,
        questions.stream()
            .map(question -> Readings.answer(question, false))
            .toArray(Reading[]::new));
  }

  /** What a step records, and how it is answered. */
  @FunctionalInterface
  private interface Step {
    Decision run();
  }

  private void recording(Step step) {
    int before = session.events().size();
    Decision decision = step.run();
    events(before);
    show(decision);
    decision.hindsight().forEach(other -> screen.print("     " + other));
  }

  private void events(int from) {
    List<Event> events = session.events();
    for (int i = from; i < events.size(); i++) {
      Event event = events.get(i);
      screen.print("  event " + (i + 1) + ", " + Times.clock(event.at()) + ": " + Told.line(event));
    }
    if (events.isEmpty()) {
      screen.print("nothing is recorded yet");
    }
  }

  private void help() {
    HELP.forEach(row -> screen.print("  " + row));
    vocabulary.signs().forEach(line -> screen.print("  " + line));
  }

  // Only what is shown now is confirmed, and only what there was time to read.
  private void confirm(Duration at, boolean inFull) {
    Decision decision = session.decide(at);
    Verdict verdict = decision.verdict();
    if (verdict instanceof Verdict.Continue || verdict instanceof Verdict.Measure) {
      show(decision);
      what(decision);
    } else if (show(decision) || isHardlyRead()) {
      screen.print("not done yet: this is new; press Enter again to confirm it");
    } else if (endsTheTest(decision) && !inFull) {
      screen.print(
          verdict instanceof Verdict.Defer
              ? "not done: DEFER ends the test before it has begun; type follow to do that"
              : "not done: a STOP in recovery ends the test as an emergency; type follow to do"
                  + " that");
    } else {
      follow(decision);
    }
  }

  private boolean isHardlyRead() {
    return screen.isWatched() && clock.real().minus(shownAt).compareTo(TO_READ) < 0;
  }

  // Before anything is known of the person: Enter, typed once too often, is not enough for that.
  private static boolean endsTheTest(Decision decision) {
    boolean emergency =
        decision.phase() == Phase.RECOVERY && decision.verdict() instanceof Verdict.Stop;
    return emergency || decision.verdict() instanceof Verdict.Defer;
  }

  private void follow(Decision decision) {
    session.follow(decision);
    done(decision.verdict(), decision.at());
  }

  // What comes next is new, even where it says the same.
  private void done(Verdict verdict, Duration at) {
    screen.print("done: " + verdict);
    shown = "";
    show(session.decide(at));
  }

  private void offer(Duration at) {
    Decision decision = session.decide(at);
    Optional<Decision.Offer> first = decision.offers().stream().findFirst();
    if (first.isEmpty()) {
      screen.print("nothing is offered");
    } else if (show(decision)) {
      screen.print("not done yet: this is new; type offer again to do what is offered");
    } else {
      session.follow(decision, first.get());
      done(first.get().verdict(), at);
    }
  }

  private void stop(Duration at, String reason) {
    switch (session.phase()) {
      case STAGE -> {
        Decision decision = session.decide(at);
        if (decision.verdict() instanceof Verdict.Stop) {
          follow(decision);
        } else {
          Verdict stop = new Verdict.Stop(true, "");
          session.override(
              at, stop, reason.isEmpty() ? "stopped by the tester, who typed no reason" : reason);
          done(stop, at);
        }
      }
      case RECOVERY ->
          screen.print(
              "The exercise has ended already. To end the test as an emergency:"
                  + " override stop: why");
      case BEFORE ->
          screen.print("The exercise has not begun. To break the test off here: abandon: why");
      case ENDED -> screen.print("the test is over");
    }
  }

  private void override(Duration at, String text) {
    String[] parts = REASON.split(text.strip(), 2);
    Verdict verdict = verdict(parts[0].split("\\s+", -1), at);
    session.override(at, verdict, parts.length > 1 ? parts[1].strip() : "");
    done(verdict, at);
  }

  private static String reason(String exclaimed) {
    String text = exclaimed.replaceFirst("^!+", "");
    return REASON.matcher(text).lookingAt()
        ? REASON.matcher(text).replaceFirst("").strip()
        : text.strip();
  }

  private static Verdict verdict(String[] words, Duration at) {
    String name = words.length > 1 ? words[1] : "";
    return switch (words[0].toLowerCase(Locale.ROOT)) {
      case "finish" -> new Verdict.Finish();
      case "stop" -> new Verdict.Stop(true, "");
      case "end" -> new Verdict.End();
      case "advance" -> new Verdict.Advance(name);
      case "begin" -> new Verdict.Ready(name, List.of());
      case "defer" -> new Verdict.Defer(List.of());
      case "continue" -> new Verdict.Continue(at);
      case "hold" ->
          new Verdict.Hold(at.plus(name.isEmpty() ? Duration.ofMinutes(1) : Times.at(name)));
      default ->
          throw new IllegalArgumentException(
              "override finish, stop, advance STAGE, hold M:SS, continue, begin STAGE, defer or end,"
                  + " then a colon and the reason: override finish: asked to end here");
    };
  }

  private void withdraw(Duration at, String text) {
    String[] parts = withReason(text, "withdraw chest_pain: gone after sitting down");
    TypedNames.Found sign = vocabulary.find(parts[0]);
    recording(() -> session.withdraw(at, sign.name(), parts[1]));
  }

  private void amend(Duration at, String text) {
    String form = "amend 7 heart_rate 112: misheard";
    String[] parts = withReason(text, form);
    String[] words = parts[0].split("\\s+", 2);
    if (words.length < 2 || parts[0].contains(",")) {
      throw new IllegalArgumentException(
          "give the number of the event, one reading and the reason: "
              + form
              + "; events lists the numbers");
    }
    int number = number(words[0]);
    Reading reading = readings.replacement(words[1]);
    recording(() -> session.amend(at, number, reading, parts[1]));
  }

  private void undo(Duration at, String text) {
    List<Event> events = session.events();
    String[] parts = withReason(text, "undo " + events.size() + ": typed twice");
    String[] words = parts[0].isEmpty() ? new String[0] : parts[0].split("\\s+", 2);
    int number = words.length == 0 ? events.size() : number(words[0]);
    List<String> told = subjects(number, events);
    List<String> subjects = words.length < 2 ? told : List.of(vocabulary.find(words[1]).name());
    // Either all of it or nothing.
    Session tried = session.fork();
    subjects.forEach(subject -> tried.reject(at, number, subject, parts[1]));
    for (String subject : subjects) {
      recording(() -> session.reject(at, number, subject, parts[1]));
    }
  }

  private static List<String> subjects(int number, List<Event> events) {
    if (number < 1 || number > events.size()) {
      throw new IllegalArgumentException(
          "there is no event " + number + "; events lists what was recorded");
    }
    Event event = events.get(number - 1);
    List<String> subjects = new ArrayList<>();
    if (event instanceof Event.Read read) {
      read.readings().stream().map(Reading::subject).distinct().forEach(subjects::add);
    } else if (event instanceof Event.Reported reported) {
      subjects.add(reported.sign());
    } else if (event instanceof Event.Done) {
      subjects.add(Event.Done.SUBJECT);
    } else {
      throw new IllegalArgumentException(
          "event "
              + number
              + " ("
              + Told.line(event)
              + ") cannot be undone: only readings, answers, signs and done can. Name the event:"
              + " undo 7: why; events lists the numbers");
    }
    return subjects;
  }

  private static String[] withReason(String text, String form) {
    String[] parts = REASON.split(text.strip(), 2);
    if (parts.length < 2 || parts[1].isBlank()) {
      throw new IllegalArgumentException("say why, after a colon: " + form);
    }
    return new String[] {parts[0].strip(), parts[1].strip()};
  }

  private static int number(String text) {
    if (!text.matches("[0-9]{1,6}")) {
      throw new IllegalArgumentException(
          text + " is not the number of an event; events lists them");
    }
    return Integer.parseInt(text);
  }

  private void what(Decision decision) {
    Verdict verdict = decision.verdict();
    if (verdict instanceof Verdict.Measure measure) {
      measure.gaps().forEach(gap -> screen.print("  missing: " + gap));
    }
    agenda(decision.agenda());
    screen.print("  now: " + decision);
  }

  private void agenda(Agenda agenda) {
    for (Agenda.Item item : agenda.items()) {
      String state =
          switch (item.state()) {
            case AHEAD -> "";
            case DUE -> ", now";
            case MISSED -> ", missed";
          };
      String place = item.posture().map(posture -> ", " + posture).orElse("");
      String from =
          item.begin().equals(item.due()) ? "" : "from " + Times.clock(item.begin()) + " for ";
      screen.print(
          "  read: "
              + String.join(", ", item.names()).replace('.', ' ')
              + " "
              + from
              + Times.clock(item.due())
              + place
              + state);
    }
    agenda.whenDone().ifPresent(end -> screen.print("  " + Reminders.described(end)));
    for (Agenda.Ask ask : agenda.asks()) {
      String needed = ask.needed() ? "" : " (may be left out)";
      screen.print("  ask: " + ask.prompt() + " -> " + ask.name() + " ..." + needed);
    }
    agenda.symptoms().forEach(symptom -> screen.print("  " + Reminders.described(symptom)));
    agenda.cues().forEach(cue -> screen.print("  " + Times.clock(cue.at()) + " say: " + cue.say()));
    agenda
        .next()
        .ifPresent(
            change ->
                screen.print(
                    "  "
                        + Times.clock(change.at())
                        + " set: "
                        + (change.load().isEmpty() ? "no load" : Loading.line(change.load()))));
  }

  // What is recommended and offered, by which rules; figures that change with the clock are not.
  private static String told(Decision decision) {
    Verdict verdict = decision.verdict();
    StringBuilder told =
        new StringBuilder(
            verdict instanceof Verdict.NotRecovered ? verdict.word() : verdict.toString());
    decision.because().ifPresent(because -> told.append(" (").append(because.rule()).append(')'));
    for (Decision.Offer offer : decision.offers()) {
      told.append("; ").append(offer.verdict()).append(' ').append(offer.because().rule());
    }
    return told.toString();
  }

  // Says whether there was anything new.
  private boolean show(Decision decision) {
    String text = told(decision);
    if (text.equals(shown)) {
      return false;
    }
    screen.print(decision.toString());
    if (decision.verdict() instanceof Verdict.Advance advance
        && session.protocol().stage(advance.stage()).filter(Stage::pause).isPresent()) {
      screen.print("     no load: the person rests");
    }
    decision.offers().forEach(offer -> screen.print("     or: " + offer.verdict()));
    decision.cautions().forEach(caution -> screen.print("     caution: " + caution.shortly()));
    shown = text;
    shownAt = clock.real();
    return true;
  }
}
