package org.gradus.examples.workbench;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.gradus.capacity.Capacity;
import org.gradus.diagnostic.GradusException;
import org.gradus.session.Agenda;
import org.gradus.session.Decision;
import org.gradus.session.Loading;
import org.gradus.session.Session;
import org.gradus.session.Times;
import org.gradus.session.Verdict;

/** A test at the terminal: what is typed is told, what is decided is shown. */
final class LiveTest {

  private static final Pattern TIMED =
      Pattern.compile("((?:[0-9]{1,2}:)?[0-9]{1,3}:[0-5][0-9])\\s*(.*)");

  private static final List<String> HELP =
      List.of(
          "heart_rate 112            a reading, in its usual unit; first letters or initials do: hr",
          "pulse 28 15               28 beats in 15 seconds",
          "systolic 140, diastolic 80    readings taken together; 140/80 says the same",
          "resting heart_rate 68, 122/80 readings before the test; upright likewise",
          "unwell_today no           an answer; all questions at once: nothing unusual",
          "chest_pain / breathless 3 a sign",
          "load speed 3.5 mph        the load that is really set, where it differs",
          "done                      the stage is done: the mile is walked",
          "follow (or an empty line) do what is recommended",
          "offer                     do what is offered instead",
          "override finish: why      finish, stop, advance STAGE or hold M:SS otherwise",
          "abandon: why              break the test off",
          "why                       the rule, its figures and its source",
          "what                      what to read and to ask until the next decision",
          "quit                      leave; what was recorded can be taken up again",
          "3:00 heart_rate 112       the same at 3:00 of the test's clock");

  private final Session session;
  private final Screen screen;
  private final TestClock clock;
  private final Telling telling;
  private String shown = "";
  private boolean left;

  LiveTest(Session session, Screen screen, TestClock clock) {
    this.session = session;
    this.screen = screen;
    this.clock = clock;
    this.telling = new Telling(session);
  }

  boolean isLeft() {
    return left;
  }

  /** Shows what is recommended now, once, and the countdown. */
  void announce() {
    Decision decision = session.decide(clock.now());
    show(decision);
    paint(decision);
  }

  /** A second has passed. */
  void tick() {
    Decision decision = session.decide(clock.now());
    if (show(decision)) {
      screen.ring();
    }
    paint(decision);
  }

  private void paint(Decision decision) {
    screen.paint(decision, session.events());
  }

  void typed(String line) {
    screen.entered();
    Matcher timed = TIMED.matcher(line.strip());
    boolean hasTime = timed.matches();
    try {
      Duration now = hasTime ? clock.jump(Times.at(timed.group(1))) : clock.now();
      act(hasTime ? timed.group(2) : line.strip(), now);
    } catch (GradusException | IllegalArgumentException refused) {
      screen.print("not taken: " + refused.getMessage());
    }
    if (!left) {
      paint(session.decide(clock.now()));
    }
  }

  private void act(String text, Duration now) {
    switch (text.split("[ :]", 2)[0]) {
      case "?", "help" -> HELP.forEach(row -> screen.print("  " + row));
      case "", "follow" -> follow(session.decide(now));
      case "offer" -> offer(session.decide(now));
      case "why" -> Explanation.lines(session.decide(now)).forEach(screen::print);
      case "what" -> what(session.decide(now));
      case "load" -> show(telling.load(text.substring("load".length()), now));
      case "done" -> show(session.done(now));
      case "abandon" -> {
        session.abandon(now, reason(text.substring("abandon".length())));
        show(session.decide(now));
      }
      case "override" -> {
        override(text.substring("override".length()).strip(), now);
        show(session.decide(now));
      }
      case "quit", "exit" -> left = true;
      default -> show(telling.tell(text, now));
    }
  }

  private void follow(Decision decision) {
    Verdict verdict = decision.verdict();
    if (verdict instanceof Verdict.Continue || verdict instanceof Verdict.Measure) {
      // An empty line out of impatience is no deed.
      what(decision);
      return;
    }
    session.follow(decision);
    screen.print("done: " + verdict);
    show(session.decide(decision.at()));
  }

  private void offer(Decision decision) {
    Optional<Decision.Offer> first = decision.offers().stream().findFirst();
    if (first.isEmpty()) {
      screen.print("nothing is offered");
      return;
    }
    session.follow(decision, first.get());
    screen.print("done: " + first.get().verdict());
    show(session.decide(decision.at()));
  }

  private void override(String text, Duration now) {
    int colon = text.lastIndexOf(": ");
    String what = colon < 0 ? text : text.substring(0, colon);
    Verdict verdict = verdict(what.strip().split("\\s+", -1), now);
    session.override(now, verdict, colon < 0 ? "" : reason(text.substring(colon)));
  }

  private static String reason(String text) {
    return text.startsWith(":") ? text.substring(1).strip() : text.strip();
  }

  private static Verdict verdict(String[] words, Duration now) {
    return switch (words[0]) {
      case "finish" -> new Verdict.Finish();
      case "stop" -> new Verdict.Stop(true, "");
      case "end" -> new Verdict.End();
      case "advance" -> new Verdict.Advance(words.length > 1 ? words[1] : "");
      case "hold" ->
          new Verdict.Hold(now.plus(words.length > 1 ? Times.at(words[1]) : Duration.ofMinutes(1)));
      default ->
          throw new IllegalArgumentException(
              "override finish, stop, end, advance STAGE or hold M:SS, then a colon and the reason");
    };
  }

  private void what(Decision decision) {
    Verdict verdict = decision.verdict();
    if (verdict instanceof Verdict.Continue goOn) {
      agenda(goOn.agenda());
    } else if (verdict instanceof Verdict.Ready ready) {
      agenda(ready.agenda());
    } else if (verdict instanceof Verdict.Measure measure) {
      measure.gaps().forEach(gap -> screen.print("  missing: " + gap));
      agenda(measure.agenda());
    }
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
              + String.join(", ", item.signals()).replace('.', ' ')
              + " "
              + from
              + Times.clock(item.due())
              + place
              + state);
    }
    for (Agenda.Ask ask : agenda.asks()) {
      String needed = ask.needed() ? "" : " (may be left out)";
      screen.print("  ask: " + ask.prompt() + " -> " + ask.name() + " ..." + needed);
    }
    agenda.questions().forEach(question -> screen.print("  ask: " + question));
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

  // Says whether there was anything new.
  private boolean show(Decision decision) {
    String text =
        decision.verdict()
            + decision.because().map(because -> " (" + because.rule() + ")").orElse("");
    if (text.equals(shown)) {
      return false;
    }
    screen.print(decision.toString());
    decision.offers().forEach(offer -> screen.print("     or: " + offer.verdict()));
    decision.cautions().forEach(caution -> screen.print("     caution: " + caution.shortly()));
    shown = text;
    return true;
  }

  /** What came of it. */
  void result() {
    Capacity.of(session.outcome())
        .headline()
        .ifPresent(
            best -> {
              screen.print("estimate " + best.vo2max().rounded(1) + " (" + best.id() + ")");
              best.interval().ifPresent(interval -> screen.print("  95 % interval " + interval));
              best.cautions().forEach(caution -> screen.print("  " + caution));
            });
  }
}
