package org.gradus.testkit;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.RandomGenerator;
import org.gradus.diagnostic.ValueRefused;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Signal;
import org.gradus.review.EdgeCase;
import org.gradus.review.EdgeCases;
import org.gradus.session.Reading;
import org.gradus.unit.Type;

/**
 * Arbitraries of jqwik for whoever tests a protocol: people, readings, edges of rules, whole tests,
 * and protocols.
 *
 * <pre>{@code
 * @Provide
 * Arbitrary<TestScript> tests() {
 *   return Any.tests(WALK);
 * }
 * }</pre>
 */
public final class Any {

  private static final int LENGTH = 40;
  private static final double SUITED = 0.95;

  private Any() {}

  /**
   * People a protocol is for: within its ages, its youngest and its oldest among them, cleared,
   * without medicine that slows the heart, and with everything it needs to know.
   */
  public static Arbitrary<Person> people(Protocol protocol) {
    return new People(protocol.eligibility()).suited();
  }

  /**
   * People at the edges: the youngest and the oldest a protocol is for, and those a year younger
   * and a year older; the lightest and heaviest, shortest and tallest a person can be.
   */
  public static Arbitrary<Person> peopleAtTheEdges(Protocol protocol) {
    return new People(protocol.eligibility()).atTheEdges();
  }

  /** Anybody of whom is known what a protocol needs, whether it is for them or not. */
  public static Arbitrary<Person> anybody(Protocol protocol) {
    return new People(protocol.eligibility()).anybody();
  }

  /** Readings of all signals of a protocol, such as occur. */
  public static Arbitrary<Reading> readings(Protocol protocol) {
    List<String> signals = List.copyOf(protocol.instruments().signals().keySet());
    return Arbitraries.of(signals).flatMap(signal -> readings(protocol, signal));
  }

  /**
   * Readings of one signal of a protocol, such as occur.
   *
   * @throws java.util.NoSuchElementException when the protocol has no such signal
   */
  public static Arbitrary<Reading> readings(Protocol protocol, String signal) {
    requireNonNull(signal, "signal");
    Panel panel = new Panel(protocol);
    panel.signal(signal);
    return Arbitraries.randomValue(
        random -> new BodyReadings(panel, new Luck(random)).sensible(signal));
  }

  /**
   * Readings at the edges of what is physically possible: the lowest and the highest that are
   * taken, of every signal that is a measure.
   */
  public static Arbitrary<Reading> readingsAtTheEdges(Protocol protocol) {
    return Arbitraries.of(readings(protocol, false));
  }

  /** Readings just beyond what is physically possible, which are refused. */
  public static Arbitrary<Reading> impossibleReadings(Protocol protocol) {
    return Arbitraries.of(readings(protocol, true));
  }

  private static List<Reading> readings(Protocol protocol, boolean beyond) {
    Panel panel = new Panel(protocol);
    List<Reading> readings = new ArrayList<>();
    for (Signal signal : protocol.instruments().signals().values()) {
      boolean isLimited = signal.range().isPresent() || panel.scale(signal.name()).isPresent();
      if (signal.type() instanceof Type.Measure && isLimited) {
        Panel.Span possible = panel.possible(signal);
        double step = beyond ? panel.step(signal) : 0;
        readings.add(panel.reading(signal, possible.low() - step));
        readings.add(panel.reading(signal, possible.high() + step));
      }
    }
    return readings;
  }

  /**
   * The edge cases of all rules of a protocol: the readings just below, at and just above every
   * comparison, with what each comes to. jqwik takes each of them once where there are enough
   * tries.
   */
  public static Arbitrary<EdgeCase> edgeCases(Protocol protocol) {
    return Arbitraries.of(EdgeCases.of(protocol));
  }

  /**
   * The edge cases of one rule.
   *
   * @throws ValueRefused when the protocol has no such rule, or it compares nothing
   */
  public static Arbitrary<EdgeCase> edgeCases(Protocol protocol, String rule) {
    requireNonNull(rule, "rule");
    List<EdgeCase> cases =
        EdgeCases.of(protocol).stream().filter(edge -> edge.rule().equals(rule)).toList();
    if (cases.isEmpty()) {
      throw new ValueRefused(
          "the edge cases of a rule of " + protocol.id(),
          "those of " + rule,
          "name a rule of the protocol that compares something");
    }
    return Arbitraries.of(cases);
  }

  /**
   * Whole tests by a protocol, of up to 40 steps. What is told, and when, follows what the protocol
   * measures, asks and sets; there are slips, late readings, signs, amendments and a tester who at
   * times decides otherwise. A test that fails shrinks to fewer steps.
   */
  public static Arbitrary<TestScript> tests(Protocol protocol) {
    return tests(protocol, LENGTH);
  }

  /**
   * Whole tests by a protocol.
   *
   * @param steps how many steps there are at most
   */
  public static Arbitrary<TestScript> tests(Protocol protocol, int steps) {
    Panel panel = new Panel(protocol);
    return Arbitraries.fromGeneratorWithSize(
        size -> {
          RandomGenerator<Person> suited = people(protocol).generator(size, true);
          RandomGenerator<Person> others = anybody(protocol).generator(size, true);
          return random -> {
            Luck luck = new Luck(random);
            Person person = (luck.chance(SUITED) ? suited : others).next(random).value();
            return new FewerSteps(new ScriptWriter(panel, person, luck).write(steps));
          };
        });
  }

  /**
   * Protocols with every structure a protocol can have, made up at random. It takes longer to make
   * one up than to play a test by it.
   */
  public static Arbitrary<GrownProtocol> protocols() {
    return Arbitraries.randomValue(GrownProtocol::of);
  }
}
