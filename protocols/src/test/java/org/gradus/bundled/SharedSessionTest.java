package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Times.at;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.locks.ReentrantLock;
import org.gradus.diagnostic.SessionInUse;
import org.gradus.protocol.Person;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Ledger;
import org.gradus.session.Listener;
import org.gradus.session.Session;
import org.junit.jupiter.api.Test;

/** Threads that share sessions: in turn they are served, at the same time they are refused. */
class SharedSessionTest {

  private static final int THREADS = 32;
  private static final int SESSIONS = 8;
  private static final int TURNS = 12;
  private static final int LAST = 170;

  private static final Person PERSON = Walked.person(46, Person.Sex.FEMALE, 71).build();

  /** One test in a lane: whoever holds the lock has the turn. */
  private static final class Lane {

    private final ReentrantLock lock = new ReentrantLock();
    private final Session session = Walks.begun(Ledger.NONE);
    private final List<Decision> answers = new ArrayList<>();
    private int second;

    // At each second a reading, or a question; at the end of a stage what is recommended.
    private void turn() {
      lock.lock();
      try {
        second++;
        Duration now = Duration.ofSeconds(second);
        if (second > LAST) {
          return;
        }
        Decision asked = session.decide(now);
        answers.add(second % 30 == 0 ? session.record(now, heartRate(90 + second / 10.0)) : asked);
      } finally {
        lock.unlock();
      }
    }
  }

  @Test
  void thirtyTwoThreadsInTurnAreAnsweredLikeOne() throws Exception {
    List<Lane> lanes = new ArrayList<>();
    for (int i = 0; i < SESSIONS; i++) {
      lanes.add(new Lane());
    }
    together(
        thread -> {
          for (int turn = 0; turn < TURNS * SESSIONS; turn++) {
            lanes.get((thread * 7 + turn) % SESSIONS).turn();
          }
        });
    Lane alone = new Lane();
    for (int turn = 0; turn < LAST; turn++) {
      alone.turn();
    }
    assertThat(alone.session.events().size()).isGreaterThan(5);
    for (Lane lane : lanes) {
      assertThat(lane.answers).isEqualTo(alone.answers);
      assertThat(lane.session.events()).isEqualTo(alone.session.events());
    }
  }

  @Test
  void whoAsksIsNeverRefusedAndSeesTheSessionBeforeAnEventOrAfterIt() throws Exception {
    Session session = Walks.begun(Ledger.NONE);
    Decision before = session.decide(at("2:00"));
    Decision after = session.fork().record(at("2:00"), heartRate(104));
    ConcurrentLinkedQueue<Decision> seen = new ConcurrentLinkedQueue<>();
    together(
        thread -> {
          if (thread == 0) {
            session.record(at("2:00"), heartRate(104));
          }
          for (int i = 0; i < 20; i++) {
            seen.add(session.decide(at("2:00")));
            session.phase();
            session.outcome();
            session.changesAt(at("2:00"));
          }
        });
    assertThat(seen).isSubsetOf(before, after).hasSize(THREADS * 20);
  }

  @Test
  void ofEventsToldAtTheSameTimeOneHappensAndTheOthersAreRefused() throws Exception {
    CountDownLatch telling = new CountDownLatch(1);
    CountDownLatch refused = new CountDownLatch(THREADS - 1);
    Session session =
        Session.open(
            Walks.WALK,
            PERSON,
            (number, event, answer) -> {
              telling.countDown();
              await(refused);
            });
    ConcurrentLinkedQueue<SessionInUse> refusals = new ConcurrentLinkedQueue<>();
    together(
        thread -> {
          if (thread > 0) {
            await(telling);
          }
          try {
            session.report(at("0:10"), "chest_pain");
          } catch (SessionInUse inUse) {
            refusals.add(inUse);
            refused.countDown();
          }
        });
    assertThat(refusals).hasSize(THREADS - 1);
    assertThat(session.events()).hasSize(1);
    assertThat(session.withdraw(at("0:20"), "chest_pain", "a cramp").event()).isEqualTo(2);
  }

  // What each thread gets is counted: an event that was acknowledged has happened, no other has.
  @Test
  void withoutTurnsNoEventIsLostOrDoubled() throws Exception {
    Session session = Walks.begun(Ledger.NONE);
    int first = session.events().size();
    ConcurrentLinkedQueue<Integer> numbers = new ConcurrentLinkedQueue<>();
    AtomicInteger refused = new AtomicInteger();
    together(
        thread -> {
          for (int i = 0; i < 10; i++) {
            try {
              numbers.add(session.report(at("1:00"), "chest_pain").event());
            } catch (SessionInUse inUse) {
              refused.incrementAndGet();
            }
          }
        });
    assertThat(numbers).doesNotHaveDuplicates().hasSize(session.events().size() - first);
    assertThat(numbers.size() + refused.get()).isEqualTo(THREADS * 10);
  }

  @Test
  void whatTellsFromWithinAnEventIsRefused() {
    List<Throwable> thrown = new ArrayList<>();
    List<Session> itself = new ArrayList<>();
    Ledger meddling =
        (number, event, answer) -> {
          try {
            itself.get(0).report(event.at(), "chest_pain");
          } catch (SessionInUse inUse) {
            thrown.add(inUse);
          }
        };
    Session session = Session.open(Walks.WALK, PERSON, meddling);
    itself.add(session);
    session.report(at("0:00"), "light_headed");
    assertThat(thrown).hasSize(1);
    assertThat(session.events()).hasSize(1);
  }

  @Test
  void aListenerSeesEventsOnceTheyCount() {
    Session session = Walks.begun(Ledger.NONE);
    List<String> heard = new ArrayList<>();
    Listener listener =
        (number, event, answer) -> {
          assertThat(session.events()).hasSize(number).endsWith(event);
          assertThat(answer).isEqualTo(session.decide(event.at()));
          heard.add(number + " " + event.kind());
        };
    session.listen(listener);
    Decision now = session.report(at("0:30"), "chest_pain");
    session.fork().report(at("0:31"), "light_headed");
    session.follow(now);
    session.unlisten(listener);
    session.withdraw(at("0:50"), "chest_pain", "gone");
    int first = now.event();
    assertThat(heard)
        .containsExactly(first + " " + Event.Kind.REPORTED, first + 1 + " " + Event.Kind.FOLLOWED);
  }

  @Test
  void whatAListenerThrowsUndoesNothing() {
    Session session = Walks.begun(Ledger.NONE);
    List<Throwable> uncaught = new ArrayList<>();
    Thread.UncaughtExceptionHandler handler = Thread.currentThread().getUncaughtExceptionHandler();
    Thread.currentThread().setUncaughtExceptionHandler((thread, e) -> uncaught.add(e));
    try {
      session.listen(
          (number, event, answer) -> {
            throw new IllegalStateException("no line");
          });
      List<Integer> others = new ArrayList<>();
      session.listen((number, event, answer) -> others.add(number));
      Decision now = session.report(at("0:30"), "chest_pain");
      assertThat(session.events()).hasSize(now.event());
      assertThat(others).containsExactly(now.event());
      assertThat(uncaught).singleElement().satisfies(e -> assertThat(e).hasMessage("no line"));
    } finally {
      Thread.currentThread().setUncaughtExceptionHandler(handler);
    }
  }

  @Test
  void whatIsRefusedOrNotKeptIsNotHeard() {
    Session session =
        Session.open(
            Walks.WALK,
            PERSON,
            (number, event, answer) -> {
              throw new IllegalStateException("no disk");
            });
    List<Integer> heard = new ArrayList<>();
    session.listen((number, event, answer) -> heard.add(number));
    assertThatThrownBy(() -> session.report(at("0:30"), "chest_pain")).hasMessage("no disk");
    assertThatThrownBy(() -> session.report(at("0:30"), "chest_pains"))
        .hasMessageContaining("chest_pains");
    assertThat(heard).isEmpty();
    assertThat(session.events()).isEmpty();
  }

  @FunctionalInterface
  private interface Part {
    void of(int thread) throws Exception;
  }

  private static void together(Part part) throws Exception {
    ExecutorService pool = Executors.newFixedThreadPool(THREADS);
    CountDownLatch start = new CountDownLatch(THREADS);
    try {
      List<Future<?>> all = new ArrayList<>();
      for (int i = 0; i < THREADS; i++) {
        int thread = i;
        all.add(
            pool.submit(
                () -> {
                  start.countDown();
                  start.await();
                  part.of(thread);
                  return null;
                }));
      }
      for (Future<?> one : all) {
        one.get();
      }
    } catch (ExecutionException e) {
      throw new AssertionError(e.getCause());
    } finally {
      pool.shutdownNow();
    }
  }

  private static void await(CountDownLatch latch) {
    try {
      latch.await();
    } catch (InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }
}
