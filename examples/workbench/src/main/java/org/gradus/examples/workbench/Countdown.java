package org.gradus.examples.workbench;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.gradus.rule.answer.Gap;
import org.gradus.session.Agenda;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Phase;
import org.gradus.session.Times;
import org.gradus.session.Verdict;

/** One line that says where a test stands and how long there is until what comes next. */
final class Countdown {

  private static final String BETWEEN = " | ";
  private static final int WIDE = 60;

  private final Decision decision;
  private final Duration now;
  private final Duration begun;
  private final boolean narrow;

  private Countdown(Decision decision, Duration begun, boolean narrow) {
    this.decision = decision;
    this.narrow = narrow;
    this.now = decision.at();
    this.begun = begun;
  }

  /**
   * The line for a decision of this second.
   *
   * @param events what has happened so far
   * @param columns how long it may be; what matters less is left out first
   */
  static String line(Decision decision, List<Event> events, int columns) {
    List<String> parts = new Countdown(decision, begun(events), columns < WIDE).parts();
    StringBuilder line = new StringBuilder(parts.get(0));
    for (String part : parts.subList(1, parts.size())) {
      if (line.length() + BETWEEN.length() + part.length() > columns) {
        break;
      }
      line.append(BETWEEN).append(part);
    }
    return line.toString();
  }

  private List<String> parts() {
    List<String> parts = new ArrayList<>();
    parts.add(Times.clock(now));
    parts.add(stage());
    Verdict verdict = decision.verdict();
    if (verdict instanceof Verdict.Continue goOn) {
      parts.add((narrow ? "decision " : "decision in ") + left(goOn.until()));
      decision.agenda().whenDone().ifPresent(end -> parts.add("type done when it is done"));
      reading(decision.agenda()).ifPresent(parts::add);
      decision
          .agenda()
          .next()
          .ifPresent(change -> parts.add("load changes in " + left(change.at())));
    } else if (verdict instanceof Verdict.Measure measure) {
      measure.until().ifPresent(until -> parts.add("waiting " + left(until) + " more"));
      parts.add(missing(measure));
    } else if (!(verdict instanceof Verdict.Over)) {
      parts.add(key(verdict) + verdict.word());
    }
    return parts;
  }

  // What ends a test as an emergency is not confirmed by the key that is pressed most.
  private String key(Verdict verdict) {
    boolean emergency = decision.phase() == Phase.RECOVERY && verdict instanceof Verdict.Stop;
    String what = emergency ? "follow" : "Enter";
    return narrow ? what + ": " : (emergency ? "type " : "press ") + what + " to confirm: ";
  }

  private static String missing(Verdict.Measure measure) {
    List<String> called = measure.gaps().stream().map(Gap::called).distinct().toList();
    if (called.isEmpty()) {
      return "missing: a new reading";
    }
    return "missing: "
        + called.get(0)
        + (called.size() > 1 ? " and " + (called.size() - 1) + " more" : "");
  }

  private String stage() {
    if (decision.phase() == Phase.BEFORE) {
      return "before the test";
    }
    String name = decision.stage().orElse(decision.phase().name().toLowerCase(Locale.ROOT));
    String length =
        decision.phase() == Phase.STAGE && decision.verdict() instanceof Verdict.Continue goOn
            ? (narrow ? "/" : " of ") + Times.clock(goOn.until().minus(begun))
            : "";
    return name + " " + Times.clock(now.minus(begun)) + length;
  }

  private Optional<String> reading(Agenda agenda) {
    return agenda.items().stream()
        .filter(item -> item.state() != Agenda.State.MISSED)
        .findFirst()
        .map(
            item -> {
              String what = String.join(", ", item.names()).replace('_', ' ');
              return item.begin().compareTo(now) > 0
                  ? what + " in " + left(item.begin())
                  : what + " now, " + left(item.due()) + " left";
            });
  }

  private String left(Duration until) {
    Duration left = until.minus(now);
    return Times.clock(left.isNegative() ? Duration.ZERO : left);
  }

  // When the present stage, or recovery, began: at the last thing done that leads on.
  private static Duration begun(List<Event> events) {
    Duration begun = Duration.ZERO;
    for (Event event : events) {
      Optional<Verdict> done =
          event instanceof Event.Followed followed
              ? Optional.of(followed.verdict())
              : event instanceof Event.Overridden overridden
                  ? Optional.of(overridden.verdict())
                  : Optional.empty();
      boolean leadsOn =
          done.filter(
                  verdict ->
                      verdict instanceof Verdict.Ready
                          || verdict instanceof Verdict.Advance
                          || verdict instanceof Verdict.Change
                          || verdict instanceof Verdict.Finish
                          || verdict instanceof Verdict.Stop)
              .isPresent();
      if (leadsOn) {
        begun = event.at();
      }
    }
    return begun;
  }
}
