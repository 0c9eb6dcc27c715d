package org.gradus.session;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.NavigableSet;
import java.util.Random;
import java.util.TreeSet;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.gradus.testkit.Any;
import org.gradus.testkit.GrownProtocol;
import org.gradus.testkit.TestScript;

/** In any test, whoever asks late is answered as if he had asked at every moment. */
class LateQuestionTest {

  private static final List<GrownProtocol> PROTOCOLS = protocols();

  private static List<GrownProtocol> protocols() {
    Random random = new Random(Long.getLong("gradus.seed", 20261130L));
    List<GrownProtocol> grown = new ArrayList<>();
    for (int i = 0; i < 100; i++) {
      grown.add(GrownProtocol.of(random));
    }
    return grown;
  }

  @Provide
  Arbitrary<TestScript> tests() {
    return Arbitraries.oneOf(PROTOCOLS.stream().map(grown -> Any.tests(grown.protocol())).toList());
  }

  @Property(tries = 2000, seed = "20261130")
  void whoAsksLateIsAnsweredAsIfHeHadAskedAtEveryMoment(
      @ForAll("tests") TestScript test, @ForAll Random random) {
    TestState state = TestState.begin(test.protocol(), test.person());
    for (Event event : test.play().events()) {
      state = EventApplier.apply(state, event).state();
      if (random.nextInt(20) == 0 && state.phase != Phase.ENDED) {
        compare(state, random);
      }
    }
  }

  private static void compare(TestState state, Random random) {
    Duration end = state.now.plusSeconds(random.nextInt(40) == 0 ? 1500 : random.nextInt(240));
    TestState asked = state;
    for (Duration moment : moments(state.now, end, random)) {
      Decision late = Judge.decide(state, moment);
      assertThat(Judge.decide(asked, moment))
          .as("asked at %s since %s by %s", moment, state.now, state.protocol)
          .isEqualTo(late);
      TestState by = StateAt.of(asked, moment).state();
      asked = by.with(change -> change.now = moment);
    }
  }

  // Once in a while about every second, else a dozen of them: seconds, halves and eighths of them,
  // and moments without a name.
  private static NavigableSet<Duration> moments(Duration from, Duration to, Random random) {
    NavigableSet<Duration> moments = new TreeSet<>();
    long span = to.minus(from).toMillis();
    long every = random.nextInt(40) == 0 ? 1000 : Math.max(1000, span / 12_000 * 1000);
    for (long passed = 0; passed <= span; passed += every) {
      switch (random.nextInt(3)) {
        case 0 -> moments.add(from.plusMillis(passed));
        case 1 -> moments.add(from.plusMillis(passed + 125L * random.nextInt(8)));
        default ->
            moments.add(
                from.plusMillis(passed + random.nextInt(1000)).plusNanos(random.nextInt(9)));
      }
    }
    return moments;
  }

  @Property(tries = 2000, seed = "20261130")
  void nothingChangesByItselfBeforeItIsSaidTo(
      @ForAll("tests") TestScript test, @ForAll Random random) {
    TestState state = TestState.begin(test.protocol(), test.person());
    for (Event event : test.play().events()) {
      state = EventApplier.apply(state, event).state();
      if (random.nextInt(12) == 0) {
        Duration from = state.now.plusMillis(random.nextBoolean() ? 0 : random.nextInt(300_000));
        Duration end =
            Judge.changesAt(state, from)
                .filter(change -> change.compareTo(from.plusSeconds(600)) < 0)
                .orElse(from.plusSeconds(600));
        Object now = essence(Judge.decide(state, from));
        NavigableSet<Duration> moments = moments(from, end, random);
        moments.add(end.minusNanos(1));
        for (Duration moment : moments.subSet(from, end)) {
          assertThat(essence(Judge.decide(state, moment)))
              .as("%s, as at %s and until %s by %s", moment, from, end, state.protocol)
              .isEqualTo(now);
        }
      }
    }
  }

  // What does not go on with the time.
  private static Object essence(Decision decision) {
    Verdict verdict = decision.verdict();
    Object said = verdict;
    if (verdict instanceof Verdict.Continue goOn) {
      said = goOn.until();
    } else if (verdict instanceof Verdict.Measure measure) {
      said = List.of(measure.gaps(), measure.until());
    } else if (verdict instanceof Verdict.Ready || verdict instanceof Verdict.NotRecovered) {
      said = verdict.word();
    }
    return List.of(
        verdict.word(),
        said,
        decision.because().map(Because::rule),
        decision.firmness(),
        decision.offers().stream().map(Decision.Offer::verdict).toList(),
        decision.cautions().stream().map(Because::rule).toList(),
        decision.unchecked());
  }
}
