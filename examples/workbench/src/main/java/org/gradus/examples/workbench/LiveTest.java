package org.gradus.examples.workbench;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.gradus.capacity.Capacity;
import org.gradus.diagnostic.GradusException;
import org.gradus.examples.workbench.RunCommand.StageClock;
import org.gradus.session.Agenda;
import org.gradus.session.Decision;
import org.gradus.session.Session;
import org.gradus.session.Times;
import org.gradus.session.Verdict;

/** A test at the terminal: what is typed is told, what is decided is shown. */
final class LiveTest {

  private static final Pattern TIMED =
      Pattern.compile("((?:[0-9]{1,2}:)?[0-9]{1,3}:[0-5][0-9])\\s*(.*)");

  private static final List<String> HELP =
      List.of(
          "heart_rate 112            a reading, in its usual unit; the first letters will do",
          "pulse 28 15               28 beats in 15 seconds",
          "systolic 140, diastolic 80    readings taken together",
          "resting heart_rate 68     a reading before the test",
          "unwell_today no           an answer; all questions at once: nothing unusual",
          "chest_pain / breathless 3 a sign",
          "follow (or an empty line) do what is recommended",
          "offer                     do what is offered instead",
          "override finish: why      finish, stop, advance STAGE or hold M:SS otherwise",
          "why, what, quit",
          "3:00 heart_rate 112       the same at 3:00 of the test's clock");

  private final Session session;
  private final Shelf shelf;
  private final StageClock clock;
  private final Telling telling;
  private String shown = "";
  private boolean left;

  LiveTest(Session session, Shelf shelf, StageClock clock) {
    this.session = session;
    this.shelf = shelf;
    this.clock = clock;
    this.telling = new Telling(session);
  }

  boolean isLeft() {
    return left;
  }

  /** Shows what is recommended now, once. */
  void announce() {
    show(session.decide(clock.now()));
  }

  /** A second has passed. */
  void tick() {
    Duration now = clock.now();
    Decision decision = session.decide(now);
    show(decision);
    if (Terminal.isWatched()) {
      shelf
          .errors()
          .printf(Locale.ROOT, "\r%s %s ", decision.stage().orElse("before"), Times.clock(now));
      shelf.errors().flush();
    }
  }

  void typed(String line) {
    Matcher timed = TIMED.matcher(line.strip());
    boolean hasTime = timed.matches();
    try {
      Duration now = hasTime ? clock.jump(Times.at(timed.group(1))) : clock.now();
      act(hasTime ? timed.group(2) : line.strip(), now);
    } catch (GradusException | IllegalArgumentException refused) {
      shelf.out().println("not taken: " + refused.getMessage());
    }
  }

  private void act(String text, Duration now) {
    switch (text.split("[ :]", 2)[0]) {
      case "?" -> HELP.forEach(row -> shelf.out().println("  " + row));
      case "", "follow" -> follow(session.decide(now));
      case "offer" -> offer(session.decide(now));
      case "why" -> PlayCommand.explain(session.decide(now), shelf);
      case "what" -> what(session.decide(now));
      case "override" -> {
        override(text.substring("override".length()).strip(), now);
        show(session.decide(now));
      }
      case "quit" -> left = true;
      default -> show(telling.tell(text, now));
    }
  }

  private void follow(Decision decision) {
    session.follow(decision);
    shelf.out().println("done: " + decision.verdict());
    show(session.decide(decision.at()));
  }

  private void offer(Decision decision) {
    Optional<Decision.Offer> first = decision.offers().stream().findFirst();
    if (first.isEmpty()) {
      shelf.out().println("nothing is offered");
      return;
    }
    session.follow(decision, first.get());
    shelf.out().println("done: " + first.get().verdict());
    show(session.decide(decision.at()));
  }

  private void override(String text, Duration now) {
    int colon = text.lastIndexOf(": ");
    String what = colon < 0 ? text : text.substring(0, colon);
    String reason = colon < 0 ? "" : text.substring(colon + 2).strip();
    session.override(now, verdict(what.strip().split("\\s+", -1), now), reason);
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
    List<String> rows = new ArrayList<>();
    if (decision.verdict() instanceof Verdict.Continue goOn) {
      for (Agenda.Item item : goOn.agenda().items()) {
        rows.add(
            Times.clock(item.due())
                + " "
                + String.join(", ", item.signals())
                + " "
                + item.state().name().toLowerCase(Locale.ROOT));
      }
      goOn.agenda().questions().forEach(question -> rows.add("ask: " + question));
    } else if (decision.verdict() instanceof Verdict.Measure measure) {
      measure.gaps().forEach(gap -> rows.add(gap.toString()));
    }
    rows.forEach(row -> shelf.out().println("  " + row));
    shelf.out().println("  now: " + decision);
  }

  private void show(Decision decision) {
    String text =
        decision.verdict()
            + decision.because().map(because -> " (" + because.rule() + ")").orElse("");
    if (!text.equals(shown)) {
      shelf.out().println(decision.toString());
      decision.offers().forEach(offer -> shelf.out().println("     or: " + offer.verdict()));
      decision
          .cautions()
          .forEach(caution -> shelf.out().println("     caution: " + caution.shortly()));
      shown = text;
    }
  }

  /** What came of it. */
  void result() {
    Capacity.of(session.outcome())
        .headline()
        .ifPresent(
            best -> {
              shelf.out().println("estimate " + best.vo2max().rounded(1) + " (" + best.id() + ")");
              best.interval()
                  .ifPresent(interval -> shelf.out().println("  95 % interval " + interval));
              best.cautions().forEach(caution -> shelf.out().println("  " + caution));
            });
  }
}
