package org.gradus.testkit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.function.Function;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.RandomGenerator;
import net.jqwik.api.Shrinkable;
import net.jqwik.api.ShrinkingDistance;
import org.gradus.library.Library;
import org.gradus.session.Session;
import org.gradus.session.Verdict;

/** Every law finds a session that breaks it. */
class LawsCanFailTest {

  private static final int TESTS = 400;
  // Several: not every protocol has what every fault breaks.
  private static final List<GrownProtocol> GROWN =
      Stream.generate(new Random(15)::nextLong)
          .map(seed -> GrownProtocol.of(new Random(seed)))
          .limit(12)
          .toList();

  /** A law, and a session that does not keep it. */
  record Fault(Law law, Function<Session, LiveSession> make) {
    @Override
    public String toString() {
      return law.name();
    }
  }

  private static List<Fault> faults() {
    return List.of(
        new Fault(Laws.ANSWERED_OR_REFUSED, BrokenSessions.Fails::new),
        new Fault(Laws.WHAT_IS_TOLD_STAYS, BrokenSessions.ForgetsEvents::new),
        new Fault(Laws.WHAT_IS_REFUSED_CHANGES_NOTHING, BrokenSessions.GivesUp::new),
        new Fault(Laws.ASKING_CHANGES_NOTHING, BrokenSessions.ActsWhenAsked::new),
        new Fault(Laws.A_VERDICT_BELONGS_TO_ITS_PHASE, BrokenSessions.LagsBehind::new),
        new Fault(Laws.WAITING_ENDS, BrokenSessions.StandsStill::new),
        new Fault(Laws.MEASURE_ASKS_FOR_WHAT_CAN_BE_READ, BrokenSessions.HearsNoReading::new),
        new Fault(Laws.A_KNOWN_CHANGE_HAS_TWO_READINGS, BrokenSessions.ReadsTwice::new),
        new Fault(Laws.A_STOP_STAYS, BrokenSessions.StopsOnce::new),
        new Fault(Laws.NO_WAY_ON_AFTER_A_STOP, BrokenSessions.NeverLeavesTheStage::new),
        new Fault(Laws.A_REPORTED_SIGN_STOPS, BrokenSessions.PassesOverSigns::new),
        new Fault(Laws.THE_SAME_EVENTS_GIVE_THE_SAME_ANSWERS, BrokenSessions.HasMoods.maker()),
        new Fault(Laws.A_RECORD_GIVES_THE_TEST_BACK, BrokenSessions.LosesTheLastLine::new),
        new Fault(Laws.A_READING_TOLD_LATE_COUNTS, BrokenSessions.CountsWhenTold::new),
        new Fault(Laws.WHO_FOLLOWS_IS_DONE_IN_TIME, BrokenSessions.AlwaysHolds::new),
        new Fault(Laws.LOADS_ARE_POSSIBLE, BrokenSessions.TakesHoursForSeconds::new),
        new Fault(Laws.A_LATE_QUESTION_MISSES_NOTHING, BrokenSessions.LooksTwentySecondsBack::new),
        new Fault(Laws.A_FOLLOWED_STOP_NEEDS_FRESH_GROUNDS, BrokenSessions.SaysItAgain::new));
  }

  @Example
  void noLawIsLeftOut() {
    assertThat(faults()).extracting(Fault::law).containsExactlyElementsOf(Laws.all().list());
  }

  @Provide
  Arbitrary<Fault> everyFault() {
    return Arbitraries.of(faults());
  }

  @Property
  void aBrokenSessionIsReported(@ForAll("everyFault") Fault fault) {
    TestScript test = failing(fault);
    LawBroken broken =
        catchThrowableOfType(LawBroken.class, () -> fault.law().check(test.on(fault.make())));
    assertThat(broken.law()).isEqualTo(fault.law().name());
    assertThat(broken)
        .hasMessageContaining(fault.law().name())
        .hasMessageContaining(fault.law().says())
        .hasMessageContaining("a test by grown 1.0.0 of a person of age")
        .hasMessageContaining("(seed " + test.seed() + ")");
    assertThatCode(() -> fault.law().check(test)).doesNotThrowAnyException();
  }

  private static Stream<Shrinkable<TestScript>> tests(List<GrownProtocol> protocols) {
    List<RandomGenerator<TestScript>> tests =
        protocols.stream().map(grown -> Any.tests(grown.protocol()).generator(1000)).toList();
    Random random = new Random(11);
    return IntStream.range(0, TESTS).mapToObj(i -> tests.get(i % tests.size()).next(random));
  }

  // READY asks for nothing here.
  private static GrownProtocol withDefaults() {
    return Stream.iterate(1L, seed -> seed + 1)
        .map(seed -> GrownProtocol.of(new Random(seed)))
        .filter(grown -> grown.text().contains("default: no"))
        .filter(grown -> grown.text().contains("default: if fit"))
        .filter(grown -> !grown.text().contains("resting.heart_rate >"))
        .limit(1)
        .findFirst()
        .orElseThrow();
  }

  private static boolean fails(Fault fault, TestScript test) {
    try {
      fault.law().check(test.on(fault.make()));
      return false;
    } catch (LawBroken broken) {
      return true;
    }
  }

  private static TestScript failing(Fault fault) {
    return tests(GROWN)
        .map(Shrinkable::value)
        .filter(test -> fails(fault, test))
        .findFirst()
        .orElseThrow(() -> new AssertionError("nothing of " + TESTS + " tests breaks " + fault));
  }

  @Example
  void aTestThatFailsShrinksToTheStepsThatMatter() {
    Fault fault = new Fault(Laws.A_REPORTED_SIGN_STOPS, BrokenSessions.PassesOverSigns::new);
    Shrinkable<TestScript> test =
        tests(List.of(withDefaults()))
            // Nobody decides to begin although it is not recommended: that would take one step
            // less.
            .filter(some -> !some.value().toString().contains("decided otherwise: READY"))
            .filter(some -> fails(fault, some.value()))
            .findFirst()
            .orElseThrow();
    Optional<Shrinkable<TestScript>> fewer = Optional.of(test);
    while (fewer.isPresent()) {
      test = fewer.get();
      fewer = test.shrink().filter(some -> fails(fault, some.value())).findFirst();
    }
    // READY, for this protocol needs no answers, and the sign.
    assertThat(test.value().steps()).hasSize(2);
    assertThat(test.value().steps().get(1).toString()).containsPattern("reported (dizzy|pain)");
    assertThat(test.shrink()).allMatch(some -> some.distance().compareTo(some(2)) < 0);
  }

  private static ShrinkingDistance some(int steps) {
    return ShrinkingDistance.of(steps);
  }

  @Example
  void aRecordOfOtherFilesIsReported() {
    Library other = GrownProtocol.of(new Random(7)).library();
    TestScript test = tests(GROWN).findFirst().orElseThrow().value();
    Laws.aRecordMatchesItsFiles(GROWN.get(0).library()).check(test);
    Law law = Laws.aRecordMatchesItsFiles(other);
    LawBroken broken = catchThrowableOfType(LawBroken.class, () -> law.check(test));
    assertThat(broken).hasMessageContaining("a-record-matches-its-files");
  }

  @Example
  void aLawOfOnesOwnIsReportedWithTheStepThatBreaksIt() {
    Law never =
        Law.always(
            "never-ready",
            "Nobody is ever ready.",
            moment ->
                moment.answer().filter(now -> now.verdict() instanceof Verdict.Ready).isEmpty());
    TestScript test =
        tests(GROWN)
            .map(Shrinkable::value)
            .filter(some -> some.toString().contains("READY"))
            .findFirst()
            .orElseThrow();
    LawBroken broken = catchThrowableOfType(LawBroken.class, () -> never.check(test));
    assertThat(String.valueOf(broken.getMessage()).lines().toList())
        .startsWith("the law \"never-ready\" is broken", "  Nobody is ever ready.", "found:")
        .last()
        .asString()
        .contains("READY: begin s1");
  }
}
