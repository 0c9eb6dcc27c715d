package org.gradus.testkit;

import java.util.Optional;
import org.gradus.session.Because;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Verdict;

/** No stop is lost. */
final class Stops implements Watch {

  private final TestScript test;
  private Optional<Decision> held = Optional.empty();

  Stops(TestScript test) {
    this.test = test;
  }

  @Override
  public void before(LiveSession session, Step step) {
    Luck luck = test.luck(step.at());
    if (held.isPresent()) {
      look(session.decide(session.now()));
      look(session.decide(session.now().plusSeconds(luck.below(300))));
    }
  }

  @Override
  public void after(Moment moment) {
    Optional<Event> told = moment.told();
    boolean takenBack =
        told.filter(event -> event instanceof Event.Amended || event instanceof Event.Rejected)
            .isPresent();
    if (!takenBack) {
      moment.answer().ifPresent(this::look);
    }
    if (told.isPresent()) {
      boolean acted = told.filter(Stops::isAct).isPresent();
      held = moment.answer().filter(answer -> !acted && !takenBack && isByRule(answer));
    }
  }

  private static boolean isAct(Event event) {
    return event instanceof Event.Followed
        || event instanceof Event.Overridden
        || event instanceof Event.Abandoned;
  }

  private void look(Decision now) {
    held.ifPresent(stop -> Watch.demand(keeps(stop, now), now + "\n       after: " + stop));
  }

  // The same stop, or one that takes the load away at once where the first only lowers it.
  private static boolean keeps(Decision before, Decision now) {
    boolean same = rule(before).equals(rule(now));
    return now.verdict() instanceof Verdict.Stop stop
        && (same || (stop.rest() && !((Verdict.Stop) before.verdict()).rest()));
  }

  // A stop for want of readings is no rule's: a rule that holds then takes its place.
  private static boolean isByRule(Decision decision) {
    return decision.verdict() instanceof Verdict.Stop && !isUndecided(decision);
  }

  static Optional<String> rule(Decision decision) {
    return decision.because().map(Because::rule);
  }

  static boolean isUndecided(Decision decision) {
    return rule(decision).filter("undecided"::equals).isPresent();
  }
}
