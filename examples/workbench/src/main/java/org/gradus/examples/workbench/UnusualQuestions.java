package org.gradus.examples.workbench;

import java.time.Duration;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.session.Agenda;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Reading;
import org.gradus.session.Readings;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.unit.Type;

/**
 * The questions that {@code nothing unusual} answers: those for which the protocol's own rules
 * defer or caution on yes and never on no. Whether supervision is present is none of them: there
 * the answer no is the one that defers.
 */
final class UnusualQuestions {

  private final Session session;
  private final Duration now;
  private final List<String> open;

  private UnusualQuestions(Session session, Duration now) {
    this.session = session;
    this.now = now;
    Set<String> answered = answered(session.events());
    this.open =
        session.decide(now).agenda().asks().stream()
            .filter(ask -> ask.type().equals(Type.CONDITION))
            .map(Agenda.Ask::name)
            .filter(name -> !answered.contains(name))
            .toList();
  }

  /** Those that are not answered yet, in the order of the file. */
  static List<String> open(Session session, Duration now) {
    UnusualQuestions all = new UnusualQuestions(session, now);
    return all.open.stream().filter(all::isUnusual).toList();
  }

  private static Set<String> answered(List<Event> events) {
    Set<String> answered = new HashSet<>();
    for (Event event : events) {
      if (event instanceof Event.Read read) {
        read.readings().forEach(reading -> answered.add(reading.subject()));
      } else if (event instanceof Event.Rejected rejected) {
        answered.remove(rejected.subject());
      }
    }
    return answered;
  }

  // A rule may be about two answers at once: the others are tried as yes and as no.
  private boolean isUnusual(String question) {
    boolean matters = false;
    for (boolean others : new boolean[] {false, true}) {
      Set<String> onYes = reasons(question, true, others);
      Set<String> onNo = reasons(question, false, others);
      if (!onYes.containsAll(onNo)) {
        return false;
      }
      matters |= !onNo.containsAll(onYes);
    }
    return matters;
  }

  private Set<String> reasons(String question, boolean yes, boolean others) {
    List<Reading> answers = new ArrayList<>();
    for (String name : open) {
      answers.add(Readings.answer(name, name.equals(question) ? yes : others));
    }
    Decision decision;
    try {
      decision = session.fork().record(now, answers.toArray(Reading[]::new));
    } catch (ReadingRefused refused) {
      return Set.of();
    }
    Set<String> reasons = new HashSet<>();
    decision.cautions().forEach(caution -> reasons.add(caution.rule()));
    if (decision.verdict() instanceof Verdict.Defer defer) {
      defer.reasons().forEach(reason -> reasons.add(reason.rule()));
    }
    return reasons;
  }
}
