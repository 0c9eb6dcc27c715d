package org.gradus.examples.propertychecks;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.gradus.session.Times.at;

import java.nio.file.Path;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.gradus.bundled.Bundled;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.review.EdgeCase;
import org.gradus.rule.answer.Truth;
import org.gradus.session.Event;
import org.gradus.session.Reading;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.testkit.Any;
import org.gradus.testkit.Law;
import org.gradus.testkit.Laws;
import org.gradus.testkit.TestScript;

/** What must hold for {@code low-bench-steps.yaml}, each in a few lines. */
class LowBenchStepsTest {

  private static final Protocol STEPS =
      Bundled.library().and(Path.of(".")).protocol("low-bench-steps");

  @Provide
  Arbitrary<TestScript> tests() {
    return Any.tests(STEPS);
  }

  // The laws of every session, whatever happens in it.

  @Property(tries = 60)
  void everyTestKeepsTheLaws(@ForAll("tests") TestScript test) {
    Laws.all().check(test);
  }

  // The edges of a rule: which side they belong to. A sign to stop comes before all else.

  @Provide
  Arbitrary<EdgeCase> edgesOfEnough() {
    return Any.edgeCases(STEPS, "high-enough");
  }

  @Property
  void enoughBeginsAt130(@ForAll("edgesOfEnough") EdgeCase edge) {
    boolean enough = edge.value().base() >= 130;
    assertThat(edge.holds() == Truth.TRUE).isEqualTo(enough);
    assertThat(edge.decides()).matches(enough ? "finish .high-enough.|stop .*" : "go on|stop .*");
  }

  @Provide
  Arbitrary<EdgeCase> edgesOfWaiting() {
    return Any.edgeCases(STEPS, "wait");
  }

  @Property
  void onTheEdgeOfTheBandNobodyWaits(@ForAll("edgesOfWaiting") EdgeCase edge) {
    boolean waits = edge.holds() == Truth.TRUE;
    assertThat(edge.decides()).isEqualTo(waits ? "hold (wait)" : "advance (next)");
    assertThat(waits && edge.side() == EdgeCase.Side.AT).isFalse();
  }

  // Laws of one's own: of this protocol, not of all.

  private static final Law NO_FASTER_WHEN_HIGH =
      Law.always(
          "no-faster-when-high",
          "At 130 bpm or more nobody is told to step faster, unless the tester decided otherwise.",
          moment ->
              moment.last("heart_rate").filter(rate -> rate.base() >= 130).isEmpty()
                  || moment.answer().filter(now -> isFaster(now.verdict())).isEmpty()
                  || moment.after().stream().anyMatch(Event.Overridden.class::isInstance));

  private static boolean isFaster(Verdict verdict) {
    return verdict instanceof Verdict.Advance;
  }

  @Property(tries = 500)
  void nobodyIsToldToStepFasterAtAHighRate(@ForAll("tests") TestScript test) {
    NO_FASTER_WHEN_HIGH.check(test);
  }

  // People at the edges of the ages it is for: 20 to 60 years.

  @Provide
  Arbitrary<Person> peopleAtTheEdges() {
    return Any.peopleAtTheEdges(STEPS);
  }

  @Property(tries = 100)
  void itIsForThoseFrom20To60(@ForAll("peopleAtTheEdges") Person person) {
    double age = person.value(Attribute.AGE).orElseThrow().base();
    Verdict verdict = Session.open(STEPS, person).decide(at("0:00")).verdict();
    assertThat(verdict instanceof Verdict.Defer).isEqualTo(age < 20 || age > 60);
  }

  // Readings that cannot be: a slip of the keyboard never counts.

  @Provide
  Arbitrary<Reading> impossibleReadings() {
    return Any.impossibleReadings(STEPS);
  }

  @Property(tries = 100)
  void whatCannotBeIsRefused(@ForAll("impossibleReadings") Reading reading) {
    Session session = Session.open(STEPS, Any.people(STEPS).sample());
    assertThatThrownBy(() -> session.record(at("0:00"), reading))
        .isInstanceOf(ReadingRefused.class);
    assertThat(session.events()).isEmpty();
  }
}
