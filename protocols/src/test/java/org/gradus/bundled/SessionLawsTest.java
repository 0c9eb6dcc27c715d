package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Times.seconds;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.atomic.AtomicReference;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.gradus.diagnostic.GradusException;
import org.gradus.diagnostic.WrongThread;
import org.gradus.session.Because;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Phase;
import org.gradus.session.Session;
import org.gradus.session.Verdict;

/** What holds in every test, however it goes. A failure of any other kind fails them all. */
class SessionLawsTest {

  private static final int LENGTH = 40;

  private static final List<Class<? extends Verdict>> GOING_ON =
      List.of(Verdict.Ready.class, Verdict.Advance.class, Verdict.Hold.class, Verdict.Finish.class);

  private static boolean isIn(List<Class<? extends Verdict>> kinds, Verdict verdict) {
    return kinds.stream().anyMatch(kind -> kind.isInstance(verdict));
  }

  @Property(tries = 300)
  void whatIsRefusedLeavesTheSessionAsItWas(@ForAll Random random) {
    Play.of(
        random,
        LENGTH,
        new Play.Watcher() {
          private List<Event> events = List.of();
          private AtomicReference<Decision> decision = new AtomicReference<>();
          private Duration last = Duration.ZERO;

          @Override
          public void before(Session session, Step step) {
            events = session.events();
            last = events.isEmpty() ? Duration.ZERO : events.get(events.size() - 1).at();
            decision = new AtomicReference<>(session.decide(last));
          }

          @Override
          public void refused(Session session, Step step) {
            assertThat(session.events()).isEqualTo(events);
            assertThat(session.decide(last)).as("%s", step).isEqualTo(decision.get());
          }
        });
  }

  @Property(tries = 300)
  void aStopIsAnsweredUntilItIsFollowedOrOverriddenOrAMoreUrgentOneHolds(@ForAll Random random) {
    Play.of(
        random,
        LENGTH,
        new Play.Watcher() {
          private Optional<Decision> stopped = Optional.empty();

          @Override
          public void before(Session session, Step step) {
            List<Event> events = session.events();
            Duration now = events.isEmpty() ? Duration.ZERO : events.get(events.size() - 1).at();
            Decision present = session.decide(now);
            stopped.ifPresent(stop -> assertThat(kept(stop, present)).isTrue());
            // No time that passes takes a stop back.
            Duration later = now.plus(seconds(Math.floorMod(step.at().toSeconds(), 200)));
            Decision ahead = session.decide(later);
            stop(present).ifPresent(stop -> assertThat(kept(stop, ahead)).isTrue());
          }

          @Override
          public void done(Session session, Step step, Decision decision) {
            boolean acted =
                step instanceof Step.Follow
                    || (step instanceof Step.Tell tell
                        && (tell.event() instanceof Event.Overridden
                            || tell.event() instanceof Event.Abandoned));
            stopped.ifPresent(stop -> assertThat(kept(stop, decision)).as("%s", step).isTrue());
            if (acted) {
              stopped = Optional.empty();
            } else if (!(step instanceof Step.Ask)) {
              stopped = stop(decision);
            }
          }
        });
  }

  private static Optional<Decision> stop(Decision decision) {
    return Optional.of(decision).filter(some -> some.verdict() instanceof Verdict.Stop);
  }

  // The same stop, or one that takes the load away at once where the first only lowers it.
  private static boolean kept(Decision before, Decision now) {
    boolean same = before.because().map(Because::rule).equals(now.because().map(Because::rule));
    return now.verdict() instanceof Verdict.Stop stop
        && (same || (stop.rest() && !((Verdict.Stop) before.verdict()).rest()));
  }

  @Property(tries = 300)
  void noReportedPainIsEverPassedOver(@ForAll Random random) {
    Play.of(
        random,
        LENGTH,
        new Play.Watcher() {
          private boolean pain;

          @Override
          public void done(Session session, Step step, Decision decision) {
            if (step instanceof Step.Tell tell && tell.event() instanceof Event.Reported reported) {
              pain |=
                  reported.sign().equals("chest_pain")
                      && (decision.phase() == Phase.STAGE || decision.phase() == Phase.RECOVERY);
            } else if (step instanceof Step.Follow
                || (step instanceof Step.Tell tell
                    && (tell.event() instanceof Event.Overridden
                        || tell.event() instanceof Event.Abandoned))) {
              pain = false;
            }
            if (pain) {
              assertThat(decision.verdict()).as("%s", step).isInstanceOf(Verdict.Stop.class);
              assertThat(decision.offers()).isEmpty();
            }
          }
        });
  }

  @Property(tries = 300)
  void afterAFollowedStopThereIsOnlyRecovery(@ForAll Random random) {
    Play.of(
        random,
        LENGTH,
        new Play.Watcher() {
          private boolean followed;

          @Override
          public void done(Session session, Step step, Decision decision) {
            if (followed) {
              assertThat(session.phase()).isNotIn(Phase.BEFORE, Phase.STAGE);
              assertThat(isIn(GOING_ON, decision.verdict())).as("%s", decision).isFalse();
            }
            boolean stop = step instanceof Step.Follow && stop(decision).isPresent();
            followed |= stop;
          }
        });
  }

  @Property(tries = 200)
  void theSameEventsGiveTheSameDecisions(@ForAll Random random) {
    List<Decision> first = new ArrayList<>();
    Play play =
        Play.of(
            random,
            LENGTH,
            new Play.Watcher() {
              @Override
              public void done(Session session, Step step, Decision decision) {
                first.add(decision);
              }
            });
    List<Decision> second = new ArrayList<>();
    Session session = Session.open(play.protocol, play.person);
    for (Step step : play.steps) {
      try {
        second.add(step.apply(session));
      } catch (GradusException refused) {
        // It was refused the first time too, or there would be a decision too few.
      }
    }
    assertThat(second).isEqualTo(first);
  }

  @Property(tries = 200)
  void toAskChangesNothing(@ForAll Random random) {
    Play.of(
        random,
        LENGTH,
        new Play.Watcher() {
          @Override
          public void before(Session session, Step step) {
            List<Event> events = session.events();
            Duration now = events.isEmpty() ? Duration.ZERO : events.get(events.size() - 1).at();
            Decision decision = session.decide(now);
            for (int ahead : new int[] {1, 30, 60, 90, 200, 1000}) {
              assertThat(session.decide(now.plus(seconds(ahead))))
                  .isEqualTo(session.decide(now.plus(seconds(ahead))));
            }
            assertThat(session.decide(now)).isEqualTo(decision);
            assertThat(session.events()).isEqualTo(events);
          }
        });
  }

  @Property(tries = 300)
  void measuringNeverTakesLongerThanIsAllowed(@ForAll Random random) {
    Play.of(
        random,
        LENGTH,
        new Play.Watcher() {
          @Override
          public void done(Session session, Step step, Decision decision) {
            if (session.phase() != Phase.STAGE
                || !(decision.verdict() instanceof Verdict.Measure measure)
                || decision.phase() != Phase.STAGE) {
              return;
            }
            Duration limit = limit(session);
            assertThat(measure.until().orElseThrow()).isLessThanOrEqualTo(limit);
            Duration then = limit.compareTo(step.at()) > 0 ? limit : step.at();
            assertThat(session.decide(then).verdict()).isNotInstanceOf(Verdict.Measure.class);
          }
        });
  }

  // The planned end of the stage, as the events moved it, and what is left of the wait.
  private static Duration limit(Session session) {
    Duration end = Duration.ZERO;
    Duration left = Duration.ZERO;
    for (Event event : session.events()) {
      Verdict verdict = verdict(event);
      if (verdict instanceof Verdict.Ready || verdict instanceof Verdict.Advance) {
        end = event.at().plus(Duration.ofMinutes(3));
        left = session.protocol().unmeasured().atMost();
      } else if (verdict instanceof Verdict.Hold hold) {
        left = event.at().compareTo(end) > 0 ? left.minus(event.at().minus(end)) : left;
        end = hold.until();
      }
    }
    return left.isNegative() ? end : end.plus(left);
  }

  private static Verdict verdict(Event event) {
    if (event instanceof Event.Followed followed) {
      return followed.verdict();
    } else if (event instanceof Event.Overridden overridden) {
      return overridden.verdict();
    }
    return new Verdict.End();
  }

  @Property(tries = 20)
  void aSessionBelongsToTheThreadThatOpenedIt(@ForAll Random random) throws Exception {
    Luck luck = new Luck(random);
    Session session = Session.open(luck.protocol(), luck.person());
    List<Runnable> uses =
        List.of(
            () -> session.decide(Duration.ZERO),
            () -> session.record(Duration.ZERO, luck.beforeTheTest()),
            () -> session.report(Duration.ZERO, luck.sign()),
            () -> session.withdraw(Duration.ZERO, luck.sign(), "over"),
            () -> session.override(Duration.ZERO, new Verdict.Finish(), "no"),
            () -> session.abandon(Duration.ZERO, "no"),
            session::phase,
            session::events,
            session::protocol,
            session::outcome);
    AtomicReference<Throwable> thrown = new AtomicReference<>();
    Thread other = new Thread(luck.oneOf(uses));
    other.setUncaughtExceptionHandler((thread, problem) -> thrown.set(problem));
    other.start();
    other.join();
    assertThat(thrown.get()).isInstanceOf(WrongThread.class);
    assertThat(session.events()).isEmpty();
  }
}
