package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.resting;
import static org.gradus.session.Times.at;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.gradus.diagnostic.GradusException;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Signal;
import org.gradus.session.Because;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Reading;
import org.gradus.session.Reading.Measured;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.testkit.Step;
import org.gradus.unit.Quantity;
import org.junit.jupiter.api.Test;

/** A decision that is called firm stays the same wherever the true values behind readings lie. */
class SessionFirmTest {

  private static final int WORLDS = 6;

  @Property(tries = 400, seed = "20261130")
  void noDecisionIsFalselyCalledFirm(@ForAll Random random) {
    List<Optional<Decision>> decisions = new ArrayList<>();
    Play play =
        Play.of(
            random,
            40,
            new Play.Watcher() {
              @Override
              public void done(Session session, Step step, Decision decision) {
                decisions.add(Optional.of(decision));
              }

              @Override
              public void refused(Session session, Step step) {
                decisions.add(Optional.empty());
              }
            });
    for (int world = 0; world < WORLDS; world++) {
      compare(play, decisions, random);
    }
  }

  private static void compare(Play play, List<Optional<Decision>> decisions, Random random) {
    Session session = Session.open(play.protocol, play.person);
    for (int i = 0; i < play.steps.size(); i++) {
      if (play.steps.get(i) instanceof Step.Accept) {
        return; // a decision says how firm its verdict is, not how firm its offers are
      } else if (decisions.get(i).isPresent()) {
        Decision decision = decisions.get(i).get();
        Decision moved;
        try {
          moved = moved(play.steps.get(i), play.protocol, random).apply(session);
        } catch (GradusException refused) {
          return; // moved out of what is possible
        }
        boolean firm = decision.firmness().isFirm();
        if (firm) {
          assertThat(gist(moved)).as("%s%n%s", decision, play).isEqualTo(gist(decision));
        }
        if (acts(play.steps.get(i)) && !(firm && rule(moved).equals(rule(decision)))) {
          return; // from here on it could be another test
        }
      }
    }
  }

  private static boolean acts(Step step) {
    return step instanceof Step.Follow
        || (step instanceof Step.Tell tell && tell.event() instanceof Event.Overridden);
  }

  private static Optional<String> rule(Decision decision) {
    return decision.because().map(Because::rule);
  }

  // What is to be done, without the numbers it is explained with.
  private static Object gist(Decision decision) {
    Verdict verdict = decision.verdict();
    return verdict instanceof Verdict.Hold || verdict instanceof Verdict.Advance
        ? verdict
        : verdict.word();
  }

  private static Step moved(Step step, Protocol protocol, Random random) {
    return step instanceof Step.Tell tell && tell.event() instanceof Event.Read read
        ? new Step.Tell(
            new Event.Read(
                read.readings().stream().map(reading -> moved(reading, protocol, random)).toList(),
                read.taken(),
                read.at()))
        : step;
  }

  private static Reading moved(Reading reading, Protocol protocol, Random random) {
    if (reading instanceof Reading.Baseline baseline) {
      return new Reading.Baseline(baseline.posture(), moved(baseline.reading(), protocol, random));
    } else if (reading instanceof Measured measured) {
      Optional<Quantity> usual =
          Optional.ofNullable(protocol.instruments().signals().get(measured.subject()))
              .flatMap(Signal::step);
      double half =
          measured
              .step()
              .or(() -> usual)
              .map(step -> step.in(measured.value().unit()) / 2)
              .orElse(0.0);
      // Strictly inside: at the very edge the last digit decides. Often near it, where it matters.
      double share = random.nextBoolean() ? 0.999 : random.nextDouble() * 0.999;
      double by = (random.nextBoolean() ? half : -half) * share;
      Quantity value = Quantity.of(measured.value().amount() + by, measured.value().unit());
      return new Measured(measured.subject(), value, measured.step(), measured.scale());
    }
    return reading;
  }

  @Property(tries = 50, seed = "20261130")
  void farFromEveryLimitToContinueIsFirm(@ForAll Random random) {
    Session session = Walks.walking(Walks.ines());
    for (Duration now = at("0:10"); now.compareTo(at("2:40")) < 0; now = now.plusSeconds(10)) {
      Reading rate = heartRate(90 + random.nextInt(40));
      Decision decision = session.record(now, rate);
      assertThat(decision.verdict()).isInstanceOf(Verdict.Continue.class);
      assertThat(decision.firmness().isFirm()).isTrue();
    }
  }

  @Test
  void anEdgeOfOneCountMakesEveryKindOfDecisionMarginal() {
    Session session = Walks.ready(Walks.ines());
    Decision defer = session.record(at("5:00"), resting(pressure(181, 90)));
    assertThat(defer.firmness().couldFlip())
        .containsExactly("resting.systolic > resting_systolic_limit");
    Session recovery = Sessions.recovering();
    Decision end = recovery.record(at("8:00"), heartRate(100), pressure(130, 80));
    assertThat(end.verdict()).isInstanceOf(Verdict.End.class);
    assertThat(end.firmness().isFirm()).isFalse();
  }
}
