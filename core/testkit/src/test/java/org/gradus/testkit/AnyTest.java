package org.gradus.testkit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.RandomGenerator;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.diagnostic.ValueRefused;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.review.EdgeCase;
import org.gradus.session.Event;
import org.gradus.session.Phase;
import org.gradus.session.Reading;
import org.gradus.session.Session;
import org.gradus.session.Verdict;

/** What is made up is what it is said to be. */
class AnyTest {

  private static final Set<Code> CANNOT_BE = Set.of(Code.G501, Code.G502, Code.G506, Code.G508);
  private static final GrownProtocol GROWN = GrownProtocol.of(new Random(5));
  private static final Protocol PROTOCOL = GROWN.protocol();

  @Provide
  Arbitrary<Person> people() {
    return Any.people(PROTOCOL);
  }

  @Provide
  Arbitrary<Person> peopleAtTheEdges() {
    return Any.peopleAtTheEdges(PROTOCOL);
  }

  @Provide
  Arbitrary<Person> anybody() {
    return Any.anybody(PROTOCOL);
  }

  private static int age(Person person) {
    return (int) person.value(Attribute.AGE).orElseThrow().base();
  }

  private static boolean isDeferred(Person person) {
    Session session = Session.open(PROTOCOL, person);
    return session.decide(Duration.ZERO).verdict() instanceof Verdict.Defer;
  }

  @Property(tries = 200)
  void peopleAreThoseItIsFor(@ForAll("people") Person person) {
    assertThat(age(person)).isBetween(18, 65);
    assertThat(isDeferred(person)).isFalse();
  }

  @Example
  void edgesOfAgeLieOnBothSides() {
    Set<Integer> ages = new TreeSet<>();
    RandomGenerator<Person> people = Any.peopleAtTheEdges(PROTOCOL).generator(1000);
    Random random = new Random(1);
    for (int i = 0; i < 100; i++) {
      ages.add(age(people.next(random).value()));
    }
    assertThat(ages).containsExactly(17, 18, 65, 66);
  }

  @Property(tries = 200)
  void anybodyCanOpenASession(@ForAll("anybody") Person person) {
    assertThat(Session.open(PROTOCOL, person).phase()).isEqualTo(Phase.BEFORE);
  }

  @Provide
  Arbitrary<Reading> readings() {
    return Any.readings(PROTOCOL);
  }

  @Provide
  Arbitrary<Reading> readingsAtTheEdges() {
    return Any.readingsAtTheEdges(PROTOCOL);
  }

  @Provide
  Arbitrary<Reading> impossibleReadings() {
    return Any.impossibleReadings(PROTOCOL);
  }

  // What a reading is refused for, if it is refused for what it is and not for when it comes.
  private static boolean cannotBe(Reading reading) {
    Session session = Session.open(PROTOCOL, Any.people(PROTOCOL).sample());
    try {
      session.record(Duration.ZERO, reading);
      return false;
    } catch (ReadingRefused refused) {
      return CANNOT_BE.contains(refused.code());
    }
  }

  @Property(tries = 200)
  void readingsCanBe(@ForAll("readings") Reading reading) {
    assertThat(cannotBe(reading)).as("%s %s", reading.subject(), reading).isFalse();
  }

  @Property(tries = 200)
  void readingsAtTheEdgesCanBe(@ForAll("readingsAtTheEdges") Reading reading) {
    assertThat(cannotBe(reading)).as("%s %s", reading.subject(), reading).isFalse();
  }

  @Property(tries = 200)
  void thoseBeyondCannotBe(@ForAll("impossibleReadings") Reading reading) {
    assertThat(cannotBe(reading)).as("%s %s", reading.subject(), reading).isTrue();
  }

  @Example
  void edgeCasesAreThoseOfTheRule() {
    List<EdgeCase> edges = Any.edgeCases(PROTOCOL).allValues().orElseThrow().toList();
    String rule = edges.get(0).rule();
    assertThat(Any.edgeCases(PROTOCOL, rule).allValues().orElseThrow())
        .containsExactlyElementsOf(
            edges.stream().filter(edge -> edge.rule().equals(rule)).toList());
    assertThatThrownBy(() -> Any.edgeCases(PROTOCOL, "no-such-rule"))
        .isInstanceOf(ValueRefused.class)
        .hasMessageContaining("no-such-rule");
  }

  @Example
  void testsGetEverywhere() {
    Set<String> seen = new TreeSet<>();
    Law look =
        Law.of(
            "look",
            "Whatever is seen.",
            test ->
                new Watch() {
                  @Override
                  public void after(Moment moment) {
                    seen.add("" + moment.phase());
                    moment.answer().ifPresent(answer -> seen.add(answer.verdict().word()));
                    moment.told().map(Event::getClass).ifPresent(c -> seen.add(c.getSimpleName()));
                    moment.refusal().ifPresent(refusal -> seen.add("refused"));
                  }
                });
    Random random = new Random(2);
    for (int grown = 0; grown < 8; grown++) {
      Protocol protocol = GrownProtocol.of(random).protocol();
      RandomGenerator<TestScript> tests = Any.tests(protocol).generator(1000);
      for (int i = 0; i < 200; i++) {
        look.check(tests.next(random).value());
      }
    }
    assertThat(seen)
        .contains("BEFORE", "STAGE", "RECOVERY", "ENDED", "refused")
        .contains("READY", "DEFER", "MEASURE", "CONTINUE", "HOLD", "ADVANCE", "FINISH", "STOP")
        .contains("OVER")
        .contains("Read", "Reported", "Withdrawn", "Amended", "Rejected", "LoadSet", "Followed")
        .contains("Overridden", "Abandoned");
  }

  @Example
  void aTestHasNoMoreStepsThanWanted() {
    RandomGenerator<TestScript> tests = Any.tests(PROTOCOL, 5).generator(1000);
    Random random = new Random(3);
    for (int i = 0; i < 50; i++) {
      assertThat(tests.next(random).value().steps()).hasSizeBetween(1, 5);
    }
  }

  @Example
  void theSameSeedMakesTheSameTest() {
    RandomGenerator<TestScript> tests = Any.tests(PROTOCOL).generator(1000);
    String first = tests.next(new Random(4)).value().toString();
    assertThat(tests.next(new Random(4)).value()).hasToString(first);
    assertThat(tests.next(new Random(5)).value().toString()).isNotEqualTo(first);
  }
}
