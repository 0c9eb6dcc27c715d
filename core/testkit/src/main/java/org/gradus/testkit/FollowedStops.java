package org.gradus.testkit;

import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.gradus.rule.check.Demand;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Phase;
import org.gradus.session.Verdict;

/** A stop that was followed has been heard. */
final class FollowedStops implements Watch {

  private final TestScript test;
  // The rules that were followed, and when.
  private final Map<String, Duration> heard = new HashMap<>();

  FollowedStops(TestScript test) {
    this.test = test;
  }

  @Override
  public void after(Moment moment) {
    Optional<Event> told = moment.told();
    told.ifPresent(this::refresh);
    if (told.isPresent()
        && told.get() instanceof Event.Followed followed
        && followed.verdict() instanceof Verdict.Stop
        && moment.phase() == Phase.STAGE) {
      // A rule that time moves may cease to hold, and hold anew, without a word.
      moment
          .answer()
          .flatMap(Stops::rule)
          .filter(rule -> demands(rule).noneMatch(this::mayMove))
          .ifPresent(rule -> heard.put(rule, followed.at()));
    } else {
      moment.answer().ifPresent(this::look);
    }
    if (!heard.isEmpty() && moment.session().phase() == Phase.RECOVERY) {
      LiveSession session = moment.session();
      look(session.decide(session.now()));
      look(session.decide(session.now().plusSeconds(test.luck(session.now()).below(400))));
    }
  }

  private void look(Decision now) {
    boolean again =
        now.phase() == Phase.RECOVERY
            && now.verdict() instanceof Verdict.Stop
            && Stops.rule(now).filter(heard::containsKey).isPresent();
    Watch.demand(!again, now + "\n       that was followed before");
  }

  // What was put right may be grounds that nobody had.
  private void refresh(Event event) {
    if (event instanceof Event.Read read) {
      List<String> names = read.readings().stream().map(reading -> reading.subject()).toList();
      heard
          .entrySet()
          .removeIf(
              rule ->
                  read.taken().compareTo(rule.getValue()) >= 0 && isAskedFor(rule.getKey(), names));
    } else if (event instanceof Event.Reported reported) {
      heard.keySet().removeIf(rule -> isAskedFor(rule, List.of(reported.sign())));
    } else if (event instanceof Event.Amended || event instanceof Event.Rejected) {
      heard.clear();
    }
  }

  private boolean isAskedFor(String id, List<String> names) {
    return demands(id).anyMatch(demand -> isOneOf(names, demand));
  }

  private Stream<Demand> demands(String id) {
    return test.protocol().rules().endingExercise().stream()
        .filter(rule -> rule.id().equals(id))
        .flatMap(rule -> rule.rule().condition().stream())
        .flatMap(condition -> condition.demands().stream());
  }

  private static boolean isValue(Demand demand) {
    return demand.aspect() == Demand.Aspect.VALUE;
  }

  private boolean isOneOf(List<String> names, Demand demand) {
    return names.contains(demand.subject())
        || (isValue(demand)
            && test.protocol().wiring().fact(demand).signal().filter(names::contains).isPresent());
  }

  private boolean mayMove(Demand demand) {
    return switch (demand.aspect()) {
      case EVER, COMPLETED -> false;
      case EARLIER,
          AVERAGE,
          HIGHEST,
          LOWEST,
          COUNT,
          LINE_MEAN_X,
          LINE_MEAN_Y,
          LINE_SLOPE,
          INTERPOLATED ->
          true;
      case VALUE ->
          switch (test.protocol().wiring().fact(demand).dependsOn()) {
            case CLOCK, LOAD -> true;
            case PERSON, READING, SIGN, STAGE, RESULT -> false;
          };
    };
  }
}
