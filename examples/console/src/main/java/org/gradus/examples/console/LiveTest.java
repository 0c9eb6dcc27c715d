package org.gradus.examples.console;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.gradus.diagnostic.GradusException;
import org.gradus.history.Journal;
import org.gradus.history.Json;
import org.gradus.history.TestRecord;
import org.gradus.history.Title;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.report.Report;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Loading;
import org.gradus.session.Phase;
import org.gradus.session.Session;
import org.gradus.session.Times;
import org.gradus.session.Verdict;
import org.gradus.unit.Unit;
import org.gradus.words.Language;

/**
 * One test, with its session on a thread of its own, as the engine asks for. Each event is in the
 * journal before a page hears of it.
 */
final class LiveTest implements AutoCloseable {

  private final ExecutorService thread;
  private final Library library;
  private final Path record;
  private final WallClock clock;
  private final Session session;
  private final Journal journal;
  private final Optional<Gap> gap;

  private LiveTest(
      ExecutorService thread,
      Library library,
      Path record,
      WallClock clock,
      Session session,
      Journal journal,
      Optional<Gap> gap) {
    this.thread = thread;
    this.library = library;
    this.record = record;
    this.clock = clock;
    this.session = session;
    this.journal = journal;
    this.gap = gap;
  }

  /** Opens a new test, recorded in a new file. */
  static LiveTest create(
      Library library,
      Path record,
      Protocol protocol,
      Person person,
      Optional<String> identity,
      double speed,
      InstantSource day) {
    ExecutorService thread = thread();
    return on(
        thread,
        () -> {
          // Whoever cannot be tested by it leaves no empty record behind.
          Session.open(protocol, person);
          Instant began = day.instant().truncatedTo(ChronoUnit.MILLIS);
          Title title = Title.of(protocol, person, identity);
          Journal journal =
              Journal.create(record, title.begun(began.atZone(ZoneId.systemDefault())));
          Session session = Session.open(protocol, person, journal);
          WallClock clock = WallClock.begin(clockOf(record), began, speed, day);
          return new LiveTest(thread, library, record, clock, session, journal, Optional.empty());
        });
  }

  /** Takes a recorded test up again. */
  static LiveTest reopen(Library library, Path record, InstantSource day) {
    ExecutorService thread = thread();
    return on(
        thread,
        () -> {
          WallClock clock = WallClock.read(clockOf(record), day);
          Duration alive = clock.lastAlive();
          Journal.Reopened again = Journal.reopen(record, library);
          boolean over = again.session().phase() == Phase.ENDED;
          Duration missed = clock.now().minus(alive);
          Optional<Gap> gap =
              over ? Optional.empty() : Optional.of(new Gap(missed, clock.now(), again.dropped()));
          return new LiveTest(
              thread, library, record, clock, again.session(), again.journal(), gap);
        });
  }

  /** For how long the console was away, until when, and what of the record was damaged. */
  private record Gap(Duration missed, Duration until, Optional<String> dropped) {
    String in(PageWords words) {
      return words.say(
              "The console was away for {0}, until {1}. Everything entered before is here.",
              Times.clock(missed), Times.clock(until))
          + dropped.map(what -> " " + words.say("Cut off as damaged: {0}.", what)).orElse("");
    }
  }

  static Path clockOf(Path record) {
    return record.resolveSibling(record.getFileName() + ".clock");
  }

  private static ExecutorService thread() {
    return Executors.newSingleThreadExecutor(
        task -> {
          Thread made = new Thread(task, "test");
          made.setDaemon(true);
          return made;
        });
  }

  private static <T> T on(ExecutorService thread, Callable<T> task) {
    try {
      return thread.submit(task).get();
    } catch (ExecutionException e) {
      if (e.getCause() instanceof RuntimeException refused) {
        throw refused;
      }
      throw new IllegalStateException(e.getCause());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  // The clock of the machine may be set back; the time of a test never goes back.
  private Duration now() {
    Duration now = clock.now();
    List<Event> events = session.events();
    Duration last = events.isEmpty() ? Duration.ZERO : events.get(events.size() - 1).at();
    return now.compareTo(last) < 0 ? last : now;
  }

  /** The test as a page shows it, as JSON. */
  String state(Locale locale) {
    return on(thread, () -> view(locale));
  }

  private Language language(Locale locale) {
    return library.language(session.protocol().id(), locale);
  }

  private String view(Locale locale) {
    PageWords words = PageWords.in(language(locale));
    Map<String, Object> map = new LinkedHashMap<>(new TestView(session, now(), words).map());
    map.put("speed", clock.speed());
    gap.ifPresent(away -> map.put("gap", away.in(words)));
    return Json.write(map);
  }

  /** The time of the test in seconds. */
  double seconds() {
    return on(thread, this::now).toMillis() / 1000.0;
  }

  /** What a page has to be told anew when it differs. */
  String told() {
    return on(
        thread,
        () -> {
          if (session.phase() != Phase.ENDED) {
            clock.beat();
          }
          return session.events().size() + " " + TestView.told(session, now());
        });
  }

  /**
   * Does what a page asks for, and answers with the test as it is then.
   *
   * @throws Refusal when another window was faster, or what was entered cannot be; nothing is
   *     recorded
   */
  String act(FormFields form, Locale locale) {
    return on(
        thread,
        () -> {
          String action = form.text("do");
          if (!action.equals("stop") && form.whole("seen") != session.events().size()) {
            throw new Refusal(
                409, "Something was entered in another window. Look at it, then do this again.");
          }
          PageWords words = PageWords.in(language(locale));
          try {
            act(action, form, words);
          } catch (Refusal refused) {
            throw refused.said(words);
          } catch (GradusException refused) {
            throw Refusal.of(refused, words);
          }
          return view(locale);
        });
  }

  private void act(String action, FormFields form, PageWords words) {
    Duration now = now();
    switch (action) {
      case "follow" -> session.follow(seen(form, now));
      case "offer" -> {
        Decision decision = seen(form, now);
        int offer = form.whole("offer");
        if (offer < 0 || offer >= decision.offers().size()) {
          throw new Refusal(409, "This is not offered any more.");
        }
        session.follow(decision, decision.offers().get(offer));
      }
      case "read" ->
          session.recordTaken(now, taken(form, now), new Typed(session.protocol()).readings(form));
      case "sign" -> {
        if (form.has("grade")) {
          session.report(now, form.text("name"), form.whole("grade"));
        } else {
          session.report(now, form.text("name"));
        }
      }
      case "withdraw" -> session.withdraw(now, form.text("name"), form.text("reason"));
      case "amend" ->
          session.amend(
              now,
              form.whole("event"),
              new Typed(session.protocol()).readings(form)[0],
              form.text("reason"));
      case "reject" -> reject(form, now);
      case "done" -> session.done(now);
      case "load" -> load(form, now);
      case "stop" -> stop(form, now, words);
      case "override" -> override(form, now);
      case "abandon" -> session.abandon(now, form.text("reason"));
      default -> throw new Refusal(422, "Nothing is called {0}.", action);
    }
  }

  private static Duration taken(FormFields form, Duration now) {
    return form.maybe("taken").map(Times::at).orElse(now);
  }

  // Only what the person has seen is confirmed.
  private Decision seen(FormFields form, Duration now) {
    Decision decision = session.decide(now);
    if (!TestView.token(decision).equals(form.text("token"))) {
      throw new Refusal(409, "The recommendation has just changed. Read it, then confirm it.");
    }
    return decision;
  }

  // Either all of an entry or nothing.
  private void reject(FormFields form, Duration now) {
    int number = form.whole("event");
    List<Event> counted = Event.counted(session.events());
    if (number < 1 || number > counted.size()) {
      throw new Refusal(422, "There is no entry {0}.", number);
    }
    List<String> subjects = new ArrayList<>(ToldEvents.subjects(counted.get(number - 1)));
    if (subjects.isEmpty()) {
      throw new Refusal(422, "Entry {0} cannot be taken back.", number);
    }
    String reason = form.text("reason");
    Session tried = session.fork();
    subjects.forEach(subject -> tried.reject(now, number, subject, reason));
    subjects.forEach(subject -> session.reject(now, number, subject, reason));
  }

  private void load(FormFields form, Duration now) {
    String name = form.text("name");
    Unit unit =
        session.outcome().load(now).stream()
            .filter(load -> load.name().equals(name))
            .map(load -> load.value().unit())
            .findFirst()
            .orElseThrow(() -> new Refusal(422, "No load is called {0} here.", name));
    session.loadSet(now, new Loading(name, Typed.quantity(name, form.text("value"), unit)));
  }

  private void stop(FormFields form, Duration now, PageWords words) {
    if (session.phase() == Phase.BEFORE) {
      session.abandon(
          now, form.maybe("reason").orElse(words.say("stopped before the exercise began")));
      return;
    } else if (session.phase() == Phase.ENDED) {
      throw new Refusal(409, "The test is over.");
    }
    Decision decision = session.decide(now);
    if (decision.verdict() instanceof Verdict.Stop) {
      session.follow(decision);
    } else {
      session.override(
          now,
          new Verdict.Stop(true, ""),
          form.maybe("reason").orElse(words.say("stopped by the tester at the console")));
    }
  }

  private void override(FormFields form, Duration now) {
    String reason = form.text("reason");
    Verdict verdict =
        switch (form.text("verdict")) {
          case "finish" -> new Verdict.Finish();
          case "hold" -> new Verdict.Hold(end(now).plusSeconds(60));
          case "advance" -> new Verdict.Advance(following());
          case "begin" -> new Verdict.Ready(session.protocol().stages().get(0).id(), List.of());
          case "defer" -> new Verdict.Defer(List.of());
          case "end" -> new Verdict.End();
          default -> throw new Refusal(422, "Choose what to do instead.");
        };
    session.override(now, verdict, reason);
  }

  // When the stage that lasts is to end, or now if that is over.
  private Duration end(Duration now) {
    return session.decide(now).verdict() instanceof Verdict.Continue goOn ? goOn.until() : now;
  }

  // The stage behind the one that lasts, in the order of the file.
  private String following() {
    String stage = session.decide(now()).stage().orElse("");
    List<String> stages = session.protocol().stages().stream().map(found -> found.id()).toList();
    int next = stages.indexOf(stage) + 1;
    if (next >= stages.size()) {
      throw new Refusal(422, "There is no stage behind this one.");
    }
    return stages.get(next);
  }

  /** The report as a page. */
  String report(boolean cleared, Locale locale) {
    Language language = language(locale);
    TestRecord whole = TestRecord.parse(String.valueOf(record.getFileName()), record());
    Report report =
        Report.of(whole, library)
            .in(language)
            .norms(library.norms())
            .bands(library.bands("bands-2011"));
    return cleared ? report.clearedAfterStop().html() : report.html();
  }

  /** The record as it stands in the file. */
  String record() {
    try {
      return Files.readString(record);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public void close() {
    on(
        thread,
        () -> {
          journal.close();
          return true;
        });
    thread.shutdown();
  }
}
