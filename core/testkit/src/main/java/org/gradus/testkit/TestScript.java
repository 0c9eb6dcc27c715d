package org.gradus.testkit;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.Function;
import org.gradus.diagnostic.GradusException;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.session.Session;

/**
 * A test of one person, step by step: what is told, asked and done, and when. It is made up by
 * {@link Any#tests}, and can be played any number of times. Its text shows every step with its
 * answer.
 */
public final class TestScript {

  private final Panel panel;
  private final Person person;
  private final long seed;
  private final List<Step> steps;
  private final Function<Session, LiveSession> opener;

  private TestScript(
      Panel panel,
      Person person,
      long seed,
      List<Step> steps,
      Function<Session, LiveSession> opener) {
    this.panel = panel;
    this.person = person;
    this.seed = seed;
    this.steps = List.copyOf(steps);
    this.opener = opener;
  }

  /**
   * A script of one's own.
   *
   * @param seed what laws draw from that try things at random
   */
  public static TestScript of(Protocol protocol, Person person, long seed, List<Step> steps) {
    requireNonNull(person, "person");
    requireNonNull(steps, "steps");
    return of(new Panel(protocol), person, seed, steps);
  }

  static TestScript of(Panel panel, Person person, long seed, List<Step> steps) {
    return new TestScript(panel, person, seed, steps, LiveSession::new);
  }

  /** The same with other steps. */
  public TestScript with(List<Step> others) {
    requireNonNull(others, "others");
    return new TestScript(panel, person, seed, others, opener);
  }

  /** The same, played on sessions of another make. */
  TestScript on(Function<Session, LiveSession> make) {
    return new TestScript(panel, person, seed, steps, make);
  }

  /** The protocol. */
  public Protocol protocol() {
    return panel.protocol();
  }

  Panel panel() {
    return panel;
  }

  /** The person. */
  public Person person() {
    return person;
  }

  /** What laws draw from that try things at random. */
  public long seed() {
    return seed;
  }

  /** What is done, in order. */
  public List<Step> steps() {
    return steps;
  }

  /** A session of this test in which nothing has been done yet. */
  public LiveSession open() {
    return opener.apply(Session.open(protocol(), person));
  }

  /** Plays all of it; what is refused is passed over. */
  public Session play() {
    LiveSession session = open();
    for (Step step : steps) {
      try {
        session.apply(step);
      } catch (GradusException refused) {
        // The session is as it was.
      }
    }
    return session.session();
  }

  // The same at the same time, whatever other steps there are: so a shorter script still fails.
  Luck luck(Duration at) {
    return new Luck(new SplittableRandom(seed + at.toMillis()));
  }

  /** Protocol, person and seed. */
  String head() {
    return "a test by " + protocol() + " of a person of " + person + " (seed " + seed + ")";
  }

  /** Every step with its answer. */
  @Override
  public String toString() {
    return head() + "\n" + Player.told(this);
  }
}
