package org.gradus.testkit;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.gradus.diagnostic.GradusException;
import org.gradus.history.TestRecord;
import org.gradus.session.Because;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Phase;
import org.gradus.session.Readings;
import org.gradus.session.Session;
import org.gradus.session.Verdict;

/** What holds for every protocol and every order of events. */
class GrownLawsTest {

  private static final int LENGTH = 40;

  // Reading a file takes longer than a whole test by it, so there are some to choose from.
  private static final long SEED = System.nanoTime();
  private static final List<GrownProtocol> PROTOCOLS = protocols();

  private static List<GrownProtocol> protocols() {
    System.out.println("grown protocols with seed " + SEED);
    Random random = new Random(SEED);
    List<GrownProtocol> grown = new ArrayList<>();
    for (int i = 0; i < 150; i++) {
      grown.add(GrownProtocol.of(random));
    }
    return grown;
  }

  private static GrownProtocol any(Random random) {
    return PROTOCOLS.get(random.nextInt(PROTOCOLS.size()));
  }

  private static Duration now(Session session) {
    List<Event> events = session.events();
    return events.isEmpty() ? Duration.ZERO : events.get(events.size() - 1).at();
  }

  // The same stop, or one that takes the load away at once where the first only lowers it.
  private static boolean kept(Decision before, Decision now) {
    boolean same = before.because().map(Because::rule).equals(now.because().map(Because::rule));
    return now.verdict() instanceof Verdict.Stop stop
        && (same || (stop.rest() && !((Verdict.Stop) before.verdict()).rest()));
  }

  // A stop for want of readings is no rule's: a rule that holds then takes its place.
  private static boolean isByRule(Decision decision) {
    boolean undecided =
        decision.because().filter(why -> why.rule().equals("undecided")).isPresent();
    return decision.verdict() instanceof Verdict.Stop && !undecided;
  }

  private static boolean goesOn(Verdict verdict) {
    return verdict instanceof Verdict.Ready
        || verdict instanceof Verdict.Advance
        || verdict instanceof Verdict.Hold
        || verdict instanceof Verdict.Finish;
  }

  /** Looks at everything that must hold at each step. */
  private static final class Laws implements GrownTest.Watcher {
    private final Random random;
    private List<Event> events = List.of();
    private Optional<Decision> decision = Optional.empty();
    private Optional<Decision> stop = Optional.empty();
    private Phase phase = Phase.BEFORE;
    private boolean stopFollowed;
    private final List<Decision> answers = new ArrayList<>();

    Laws(Random random) {
      this.random = random;
    }

    @Override
    public void before(Session session) {
      events = session.events();
      phase = session.phase();
      decision = Optional.empty();
      if (random.nextInt(3) > 0) {
        return;
      }
      Duration now = now(session);
      Decision present = session.decide(now);
      decision = Optional.of(present);
      total(session, present);
      stop.ifPresent(held -> assertThat(kept(held, present)).as("%s", present).isTrue());
      if (random.nextInt(3) == 0) {
        ahead(session, now, present);
      }
    }

    // There is always an answer, the same to the same question, and asking changes nothing.
    private void ahead(Session session, Duration now, Decision present) {
      Duration later = now.plusSeconds(random.nextInt(300));
      Decision then = session.decide(later);
      total(session, then);
      assertThat(session.decide(later)).isEqualTo(then);
      if (isByRule(present)) {
        assertThat(kept(present, then)).isTrue();
      }
      Session fork = session.fork();
      try {
        fork.report(later, "dizzy");
        fork.record(later, Readings.heartRate(100));
      } catch (GradusException refused) {
        // What a copy refuses is none of the matter.
      }
      assertThat(session.events()).isEqualTo(events);
      assertThat(session.decide(now)).isEqualTo(present);
    }

    // A verdict belongs to its phase, waits no longer than it says, and offers nothing beside a
    // stop.
    private static void total(Session session, Decision decision) {
      Verdict verdict = decision.verdict();
      boolean fits =
          switch (session.phase()) {
            case BEFORE ->
                verdict instanceof Verdict.Ready
                    || verdict instanceof Verdict.Defer
                    || verdict instanceof Verdict.Measure;
            case STAGE ->
                (goesOn(verdict) && !(verdict instanceof Verdict.Ready))
                    || verdict instanceof Verdict.Stop
                    || verdict instanceof Verdict.Continue
                    || verdict instanceof Verdict.Measure;
            case RECOVERY ->
                !goesOn(verdict)
                    && !(verdict instanceof Verdict.Defer)
                    && !(verdict instanceof Verdict.Over);
            case ENDED -> verdict instanceof Verdict.Over;
          };
      assertThat(fits).as("%s in %s", decision, session.phase()).isTrue();
      if (verdict instanceof Verdict.Stop) {
        assertThat(decision.offers()).isEmpty();
      }
      if (verdict instanceof Verdict.Measure measure && measure.until().isPresent()) {
        assertThat(session.decide(measure.until().get()).verdict())
            .as("%s", decision)
            .isNotEqualTo(verdict);
      }
      if (verdict instanceof Verdict.Continue goOn) {
        assertThat(goOn.until()).isGreaterThan(decision.at());
      }
    }

    @Override
    public void done(Session session, GrownTest.Step step, Decision answer, boolean acted) {
      answers.add(answer);
      List<Event> after = session.events();
      boolean told = after.size() > events.size();
      assertThat(after.subList(0, events.size())).isEqualTo(events);
      Event last =
          after.isEmpty() ? new Event.Abandoned("", Duration.ZERO) : after.get(after.size() - 1);
      boolean takenBack = last instanceof Event.Amended || last instanceof Event.Rejected;
      boolean undone = acted || (told && takenBack);
      stop.ifPresent(held -> assertThat(undone || kept(held, answer)).as("%s", answer).isTrue());
      if (stopFollowed) {
        assertThat(session.phase()).isIn(Phase.RECOVERY, Phase.ENDED);
        assertThat(goesOn(session.decide(now(session)).verdict())).isFalse();
      }
      boolean stage = phase == Phase.STAGE && answer.phase() == Phase.STAGE;
      stopFollowed |=
          told
              && stage
              && last instanceof Event.Followed followed
              && followed.verdict() instanceof Verdict.Stop;
      if (undone) {
        stop = Optional.empty();
      } else if (told) {
        stop = Optional.of(answer).filter(GrownLawsTest::isByRule);
      }
      if (told && last instanceof Event.Reported reported && reported.sign().equals("dizzy")) {
        boolean moving = session.phase() == Phase.STAGE || session.phase() == Phase.RECOVERY;
        assertThat(answer.verdict() instanceof Verdict.Stop).as("%s", answer).isEqualTo(moving);
      }
    }

    @Override
    public void refused(Session session, GrownTest.Step step) {
      assertThat(session.events()).isEqualTo(events);
      decision.ifPresent(before -> assertThat(session.decide(now(session))).isEqualTo(before));
    }
  }

  @Property(tries = 19_000)
  void everyTestKeepsTheLaws(@ForAll Random random) {
    GrownProtocol grown = any(random);
    GrownTest test = new GrownTest(grown, random);
    Laws laws = new Laws(random);
    Session session = test.play(LENGTH, laws);
    int dice = random.nextInt(20);
    if (dice < 2) {
      assertThat(again(grown, test)).isEqualTo(laws.answers);
    } else if (dice == 2) {
      TestRecord record = TestRecord.of(session, Optional.empty());
      TestRecord read = TestRecord.parse("grown", record.text());
      assertThat(read.text()).isEqualTo(record.text());
      assertThat(read.verify(grown.library())).isEmpty();
      Session resumed = read.resume(grown.library(), org.gradus.session.Ledger.NONE);
      assertThat(resumed.decide(now(session))).isEqualTo(session.decide(now(session)));
    }
  }

  // The same steps give the same answers; what was refused is refused again.
  private static List<Decision> again(GrownProtocol grown, GrownTest test) {
    Session session = Session.open(grown.protocol(), test.person);
    List<Decision> answers = new ArrayList<>();
    for (GrownTest.Step step : test.steps) {
      try {
        answers.add(step.apply(session));
      } catch (GradusException refused) {
        // As before, or there would be an answer too few.
      }
    }
    return answers;
  }

  @Property(tries = 800)
  void whoFollowsEveryVerdictIsDoneWithinTheLongestTest(@ForAll Random random) {
    GrownProtocol grown = any(random);
    GrownTest test = new GrownTest(grown, random);
    double care = random.nextDouble();
    Session session = test.play(2, new GrownTest.Watcher() {});
    if (session.phase() == Phase.BEFORE) {
      return;
    }
    Duration longest = grown.protocol().longest();
    Duration now = now(session);
    while (session.phase() != Phase.ENDED) {
      assertThat(now).as("%s", grown).isLessThanOrEqualTo(longest);
      Decision decision = session.decide(now);
      Optional<Duration> waits = waits(decision.verdict());
      if (waits.isEmpty()) {
        session.follow(decision);
        continue;
      }
      Duration step = now.plusSeconds(1 + random.nextInt(45));
      now = step.compareTo(waits.get()) < 0 ? step : waits.get();
      Duration at = now;
      if (waits(session.decide(at).verdict()).isPresent() && random.nextDouble() < care) {
        try {
          session.record(at, test.readings());
        } catch (GradusException refused) {
          // A slip, or read twice.
        }
      }
    }
  }

  private static Optional<Duration> waits(Verdict verdict) {
    if (verdict instanceof Verdict.Continue goOn) {
      return Optional.of(goOn.until());
    }
    return verdict instanceof Verdict.Measure measure ? measure.until() : Optional.empty();
  }

  @Property(tries = 1_000)
  void aReadingToldLateInItsStageCountsAsOneToldInTime(@ForAll Random random) {
    GrownProtocol grown = any(random);
    GrownTest test = new GrownTest(grown, random);
    Session session = test.play(2 + random.nextInt(12), new GrownTest.Watcher() {});
    Duration now = now(session);
    Decision present = session.decide(now);
    if (session.phase() != Phase.STAGE || !(present.verdict() instanceof Verdict.Continue goOn)) {
      return;
    }
    Duration taken = now.plusSeconds(1 + random.nextInt(60));
    Duration told = taken.plusSeconds(1 + random.nextInt(10));
    Duration end = goOn.until();
    Session timely = session.fork();
    Session late = session.fork();
    var rate = Readings.heartRate(90 + random.nextInt(60));
    try {
      // What waits for a second reading waits from when the first is told: no such thing here.
      if (told.compareTo(end) >= 0
          || !(timely.record(taken, rate).verdict() instanceof Verdict.Continue)) {
        return;
      }
      late.recordTaken(told, taken, rate);
    } catch (GradusException refused) {
      return;
    }
    for (Duration at : List.of(told, end, end.plusSeconds(30))) {
      Decision one = timely.decide(at);
      Decision other = late.decide(at);
      assertThat(other.verdict()).as("%s", grown).isEqualTo(one.verdict());
      assertThat(other.because()).isEqualTo(one.because());
      assertThat(other.unchecked()).isEqualTo(one.unchecked());
    }
  }
}
