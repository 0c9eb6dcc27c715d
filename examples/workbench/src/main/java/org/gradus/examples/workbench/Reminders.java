package org.gradus.examples.workbench;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.protocol.Instruments;
import org.gradus.protocol.Sign;
import org.gradus.session.Agenda;
import org.gradus.session.Decision;
import org.gradus.session.Phase;
import org.gradus.session.Times;
import org.gradus.session.Verdict;

/**
 * What to say and to ask, shown by itself when it is due: the cues of the protocol at their times,
 * and its questions about signs before the test, half a minute before each decision and at least
 * every three minutes; in recovery first whether what stopped the exercise has gone; how a stage
 * ends that lasts until it is done, when it begins.
 */
final class Reminders {

  private static final Duration BEFORE_DECISION = Duration.ofSeconds(30);
  private static final Duration AT_LEAST_EVERY = Duration.ofMinutes(3);
  // What a jump of the clock has passed over for longer is no longer of use.
  private static final Duration TOO_LATE = Duration.ofSeconds(30);

  private final List<String> questions;
  private List<Agenda.Reminder> cues = List.of();
  private Duration asked = Duration.ZERO;
  private Optional<Duration> askedFor = Optional.empty();
  private Phase phase = Phase.BEFORE;
  private boolean askedBefore;
  private Optional<String> ending = Optional.empty();

  Reminders(Instruments instruments) {
    this.questions =
        instruments.signs().values().stream()
            .filter(Sign::asked)
            .map(TypedNames::described)
            .toList();
  }

  /** The lines that have become due since the last look. */
  List<String> due(Decision decision) {
    List<String> lines = new ArrayList<>(cues(decision));
    whenDone(decision).ifPresent(lines::add);
    if (isTimeToAsk(decision)) {
      asked = decision.at();
      symptoms(decision).stream().map(Reminders::described).forEach(lines::add);
      lines.addAll(questions);
    }
    phase = decision.phase();
    return lines;
  }

  /** How a stage ends that lasts until it is done. */
  static String described(Agenda.WhenDone end) {
    return "when this is done: type done"
        + (end.readings().isEmpty() ? "" : ", and read at once: " + String.join(", ", end.names()));
  }

  private Optional<String> whenDone(Decision decision) {
    if (ending.equals(decision.stage())
        || !(decision.verdict() instanceof Verdict.Continue)
        || decision.phase() != Phase.STAGE) {
      return Optional.empty();
    }
    ending = decision.stage();
    return decision.agenda().whenDone().map(Reminders::described);
  }

  private static List<Agenda.Symptom> symptoms(Decision decision) {
    return decision.verdict() instanceof Verdict.Continue
        ? decision.agenda().symptoms()
        : List.of();
  }

  /** How to ask whether a symptom has gone, and what to type then. */
  static String described(Agenda.Symptom symptom) {
    return "ask whether it has gone: "
        + symptom.prompt()
        + " -> withdraw "
        + symptom.sign()
        + ": why";
  }

  private List<String> cues(Decision decision) {
    Duration now = decision.at();
    boolean goesOn =
        decision.verdict() instanceof Verdict.Continue
            || decision.verdict() instanceof Verdict.Measure;
    List<Agenda.Reminder> ahead = goesOn ? decision.agenda().cues() : List.of();
    List<Agenda.Reminder> known = new ArrayList<>(cues);
    ahead.stream().filter(cue -> !known.contains(cue)).forEach(known::add);
    List<String> due =
        known.stream()
            .filter(cue -> goesOn && cue.at().compareTo(now) <= 0)
            .filter(cue -> now.minus(cue.at()).compareTo(TOO_LATE) <= 0)
            .map(cue -> Times.clock(cue.at()) + " say: " + cue.say())
            .toList();
    cues = ahead.stream().filter(cue -> cue.at().compareTo(now) > 0).toList();
    return due;
  }

  private boolean isTimeToAsk(Decision decision) {
    if (decision.phase() == Phase.BEFORE && !askedBefore) {
      askedBefore = true; // a sign that is there already defers the test
      return true;
    }
    boolean inTest = decision.phase() == Phase.STAGE || decision.phase() == Phase.RECOVERY;
    if (!inTest || (questions.isEmpty() && symptoms(decision).isEmpty())) {
      asked = decision.at();
      return false;
    }
    boolean beginsRecovery = decision.phase() == Phase.RECOVERY && phase != Phase.RECOVERY;
    boolean longAgo = decision.at().minus(asked).compareTo(AT_LEAST_EVERY) >= 0;
    boolean decisionNear = false;
    if (decision.phase() == Phase.STAGE && decision.verdict() instanceof Verdict.Continue goOn) {
      decisionNear =
          goOn.until().minus(decision.at()).compareTo(BEFORE_DECISION) <= 0
              && !askedFor.equals(Optional.of(goOn.until()));
      if (decisionNear) {
        askedFor = Optional.of(goOn.until());
      }
    }
    return beginsRecovery || decisionNear || longAgo;
  }
}
