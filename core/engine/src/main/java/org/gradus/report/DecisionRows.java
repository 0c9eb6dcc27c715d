package org.gradus.report;

import java.util.ArrayList;
import java.util.List;
import org.gradus.session.Because;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Outcome;
import org.gradus.session.Phase;
import org.gradus.session.Reading;
import org.gradus.session.Retold;
import org.gradus.session.Times;
import org.gradus.session.Verdict;

/**
 * What was decided, and what else happened that a reader has to know. Readings that only went on as
 * planned are left to the table of stages.
 */
final class DecisionRows {

  private final List<Retold> test;

  DecisionRows(Outcome outcome, List<Event> events) {
    this.test = Retold.of(outcome.protocol(), outcome.person(), events);
  }

  List<List<String>> rows() {
    List<List<String>> rows = new ArrayList<>();
    for (Retold told : test) {
      Event event = told.event();
      String time = Times.clock(event.at());
      if (event instanceof Event.Followed followed) {
        Decision decision = told.before();
        rows.add(List.of(time, shown(followed.verdict(), decision) + " – followed", why(decision)));
      } else if (event instanceof Event.Overridden overridden) {
        Decision decision = told.before();
        rows.add(
            List.of(
                time,
                overridden.verdict() + " – the tester's own decision",
                overridden.reason()
                    + ". Recommended was "
                    + decision.verdict()
                    + " – "
                    + why(decision)));
      } else if (event instanceof Event.Abandoned abandoned) {
        rows.add(List.of(time, "broken off", abandoned.reason()));
      } else if (event instanceof Event.Reported reported) {
        String grade = reported.grade().isPresent() ? ", grade " + reported.grade().getAsInt() : "";
        rows.add(
            List.of(
                time,
                "reported: " + reported.sign().replace('_', ' ') + grade,
                after(told.answer())));
      } else if (event instanceof Event.Withdrawn withdrawn) {
        String sign = withdrawn.sign().replace('_', ' ');
        rows.add(List.of(time, "withdrawn: " + sign, withdrawn.reason()));
      } else if (event instanceof Event.Amended amended) {
        rows.add(
            List.of(
                time,
                "put right: "
                    + readings(test.get(amended.event() - 1).event())
                    + " is "
                    + readings(amended.readings()),
                amended.reason()));
      } else if (event instanceof Event.Rejected rejected) {
        String subject = rejected.subject().replace('_', ' ');
        rows.add(List.of(time, "taken back: " + subject, rejected.reason()));
      } else if (event instanceof Event.LoadSet set) {
        rows.add(
            List.of(time, "load set: " + set.load().name() + " " + set.load().value(), "as told"));
      } else if (isAlarm(told.answer())) {
        rows.add(List.of(time, "read: " + readings(event), after(told.answer())));
      }
    }
    return rows;
  }

  // What was done does not say why not to test; the decision does.
  private static Verdict shown(Verdict followed, Decision decision) {
    return followed instanceof Verdict.Defer ? decision.verdict() : followed;
  }

  private static String readings(Event event) {
    return event instanceof Event.Read read ? readings(read.readings()) : "what was told";
  }

  private static String readings(List<Reading> readings) {
    return String.join(
        ", ",
        readings.stream()
            .map(reading -> reading.subject().replace('_', ' ') + " " + reading)
            .toList());
  }

  private static boolean isAlarm(Decision answer) {
    boolean alarm =
        answer.verdict() instanceof Verdict.Stop || answer.verdict() instanceof Verdict.Measure;
    // Before the test everything is asked for in turn; that is nothing to tell.
    return alarm && answer.phase() != Phase.BEFORE;
  }

  private static String after(Decision decision) {
    String why = why(decision);
    return decision.verdict() + (why.isEmpty() ? "" : " – " + why);
  }

  private static String why(Decision decision) {
    StringBuilder words = new StringBuilder(decision.because().map(DecisionRows::why).orElse(""));
    if (!decision.firmness().isFirm()) {
      words
          .append(" Marginal: the readings' own step could flip ")
          .append(String.join("; ", decision.firmness().couldFlip()))
          .append('.');
    }
    return words.toString().strip();
  }

  private static String why(Because because) {
    String numbers = because.filled().map(filled -> " [" + filled + "]").orElse("");
    String source =
        because.source().isNamed() ? " Source: " + Words.sentence(because.source().toString()) : "";
    return because.rule() + ": " + because.shortly() + numbers + source;
  }
}
