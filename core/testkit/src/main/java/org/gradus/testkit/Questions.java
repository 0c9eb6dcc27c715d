package org.gradus.testkit;

import java.time.Duration;
import java.util.List;
import java.util.OptionalInt;
import org.gradus.diagnostic.GradusException;
import org.gradus.session.Decision;
import org.gradus.session.Event;

/** A question leaves no trace, nor does what is tried on a copy. */
final class Questions implements Watch {

  private final TestScript test;

  Questions(TestScript test) {
    this.test = test;
  }

  @Override
  public void before(LiveSession session, Step step) {
    Luck luck = test.luck(step.at());
    if (!luck.chance(0.12)) {
      return;
    }
    List<Event> events = session.events();
    Duration now = session.now();
    Decision present = session.decide(now);
    Duration later = now.plusSeconds(luck.below(300));
    Decision then = session.decide(later);
    Watch.same("the answer of a moment later", then, session.decide(later));
    onCopy(session.fork(), later, luck);
    Watch.same("the events", events, session.events());
    Watch.same("the decision", present, session.decide(now));
  }

  private void onCopy(LiveSession copy, Duration at, Luck luck) {
    attempt(copy, new Step.Follow(at));
    List<String> signs = List.copyOf(test.protocol().instruments().signs().keySet());
    if (!signs.isEmpty()) {
      String sign = luck.oneOf(signs);
      attempt(copy, new Step.Tell(new Event.Reported(sign, OptionalInt.empty(), at)));
    }
    attempt(copy, new Step.Tell(new Event.Abandoned("only tried", at)));
  }

  private static void attempt(LiveSession copy, Step step) {
    try {
      copy.apply(step);
    } catch (GradusException refused) {
      // What a copy refuses is none of the matter.
    }
  }
}
