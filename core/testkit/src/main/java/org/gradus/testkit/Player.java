package org.gradus.testkit;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.GradusException;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Phase;

/** Plays a script under the eyes of some laws, and tells the story should one be broken. */
final class Player {

  private final TestScript test;
  private final List<Law> laws;
  private final List<Watch> watches = new ArrayList<>();
  private final List<Moment> past = new ArrayList<>();

  Player(TestScript test, List<Law> laws) {
    this.test = test;
    this.laws = laws;
  }

  /** Plays it to the end. */
  void play() {
    laws.forEach(law -> watches.add(law.watch(test)));
    LiveSession session = test.open();
    List<Event> events = session.events();
    for (Step step : test.steps()) {
      each("(before " + step + ")", watch -> watch.before(session, step));
      Phase phase = session.phase();
      Optional<Decision> answer = Optional.empty();
      Optional<GradusException> refusal = Optional.empty();
      try {
        answer = Optional.of(session.apply(step));
      } catch (GradusException refused) {
        refusal = Optional.of(refused);
      } catch (RuntimeException fault) {
        throw broken(Laws.ANSWERED_OR_REFUSED, step.toString(), fault);
      }
      List<Event> after = session.events();
      Moment moment = new Moment(session, step, phase, events, after, answer, refusal);
      past.add(moment);
      each("", watch -> watch.after(moment));
      events = after;
    }
    each("(the end)", watch -> watch.end(session));
  }

  private interface Look {
    void at(Watch watch);
  }

  private void each(String here, Look look) {
    for (int i = 0; i < watches.size(); i++) {
      try {
        look.at(watches.get(i));
      } catch (AssertionError | RuntimeException failure) {
        throw broken(laws.get(i), here, failure);
      }
    }
  }

  private LawBroken broken(Law law, String here, Throwable failure) {
    String found =
        failure instanceof AssertionError ? "" + failure.getMessage() : failure.toString();
    return new LawBroken(law, found.strip(), test.head() + "\n" + told() + here, failure);
  }

  private String told() {
    StringBuilder story = new StringBuilder();
    past.forEach(moment -> story.append(told(moment)).append('\n'));
    return story.toString();
  }

  private static String told(Moment moment) {
    String refusal = "refused, " + moment.refusal().map(Throwable::getMessage).orElse("");
    return moment.step() + "\n    " + moment.answer().map(Decision::toString).orElse(refusal);
  }

  /** A script with the answer to each step, for people. */
  static String told(TestScript test) {
    Player player = new Player(test, List.of());
    try {
      player.play();
    } catch (LawBroken broken) {
      return player.told() + broken.getCause();
    }
    return player.told();
  }
}
