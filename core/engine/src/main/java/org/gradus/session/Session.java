package org.gradus.session;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.DecisionOutdated;
import org.gradus.diagnostic.NotFound;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.diagnostic.RecordRefused;
import org.gradus.diagnostic.VerdictRefused;
import org.gradus.diagnostic.WrongThread;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.rule.answer.Diagram;
import org.jspecify.annotations.Nullable;

/**
 * One test of one person. Tell it what is read and reported; it answers every event with the
 * decision of that moment, and {@link #decide} answers at any second in between.
 *
 * <pre>{@code
 * Session session = Session.open(walk, person);
 * session.record(at("0:00"), resting(heartRate(68)), resting(pressure(122, 78)));
 * session.follow(session.decide(at("0:00")));                          // READY
 * Decision now = session.record(at("1:00"), pulse(25, seconds(15)));   // CONTINUE until 3:00
 * }</pre>
 *
 * <p>Times are durations since the start of the session; the engine has no clock. Whatever is
 * refused leaves the session as it was, ready for the next event. A session belongs to the thread
 * that opened it.
 *
 * <p><strong>Safety.</strong> Gradus advises a trained person, who decides. It is no medical
 * device. Medical clearance comes first; have an emergency plan; local rules and licensed practice
 * come before anything it says.
 */
public final class Session extends Telling {

  private final Thread owner = Thread.currentThread();
  private final Ledger ledger;
  private TestState state;
  // The last answer, so that what is followed need not be worked out a second time.
  private @Nullable Decision answered;

  private Session(TestState state, Ledger ledger) {
    this.state = state;
    this.ledger = ledger;
  }

  /**
   * Opens a session in the phase before the test. Nothing starts until a READY is followed.
   *
   * @throws ReadingRefused when something the protocol needs to know of the person was not given
   */
  public static Session open(Protocol protocol, Person person) {
    return open(protocol, person, Ledger.NONE);
  }

  /**
   * Opens a session whose events are kept by a ledger before they count.
   *
   * @throws ReadingRefused when something the protocol needs to know of the person was not given
   */
  public static Session open(Protocol protocol, Person person, Ledger ledger) {
    return new Session(TestState.open(protocol, person), ledger);
  }

  /**
   * Takes up a test again from the events that were kept of it. Each event has to be one that a
   * live session takes: what was followed is what was recommended or offered at its moment, before
   * what was told later, and an override is a way on from there.
   *
   * @param events in order, as {@link #events} gave them
   * @throws RecordRefused when one of these events cannot have happened with this protocol; the
   *     message names its number, and for a followed verdict what was recommended
   * @throws ReadingRefused when something the protocol needs to know of the person is missing
   */
  public static Session resume(
      Protocol protocol, Person person, List<Event> events, Ledger ledger) {
    return new Session(Replay.of(protocol, person, events, (before, event, after) -> {}), ledger);
  }

  /**
   * Tells events again from the start and shows each with the answer of its moment, as it was then:
   * before what was told later about it.
   *
   * @throws RecordRefused when one of these events cannot have happened with this protocol, as in
   *     {@link #resume}
   * @throws ReadingRefused when something the protocol needs to know of the person is missing
   */
  public static void retell(Protocol protocol, Person person, List<Event> events, Ledger shown) {
    Replay.of(
        protocol,
        person,
        events,
        (before, event, after) ->
            shown.keep(after.number(), event, Hindsight.answer(before, event, after)));
  }

  /**
   * Tells events again with another protocol than theirs and shows each with the answer that it
   * would have got. What was followed stands, also where this protocol would have recommended
   * something else.
   *
   * @throws ReadingRefused when an event has no meaning in this protocol, such as a stage it does
   *     not have
   */
  public static void rerun(Protocol other, Person person, List<Event> events, Ledger shown) {
    TestState state = TestState.open(other, person);
    for (Event event : events) {
      StateAt next = EventApplier.suppose(state, event);
      shown.keep(next.number(), event, Hindsight.answer(state, event, next));
      state = next.state();
    }
  }

  /** A copy on which to try what would be; it is kept by no ledger and does not touch this one. */
  public Session fork() {
    ownThread();
    return new Session(state, Ledger.NONE);
  }

  @Override
  Decision tell(Event event) {
    ownThread();
    StateAt next = EventApplier.apply(state, event);
    Decision answer = Hindsight.answer(state, event, next);
    ledger.keep(next.number(), event, answer);
    state = next.state();
    answered = answer;
    return answer;
  }

  // Nobody hears the answer to what was done but a ledger.
  private void act(Decision decision, Verdict verdict) {
    if (!Following.doesSomething(verdict)) {
      return;
    }
    Event.Followed event = new Event.Followed(Following.recorded(verdict), decision.at());
    StateAt next = EventApplier.follow(state, event, decision);
    Decision answer = null;
    if (ledger != Ledger.NONE) {
      answer = Hindsight.answer(state, event, next);
      ledger.keep(next.number(), event, answer);
    }
    state = next.state();
    answered = answer;
  }

  /**
   * What to do at a moment, and why. Pure: asking changes nothing.
   *
   * @param at the moment; not before the last event
   * @throws ReadingRefused when the moment lies before the last event
   */
  public Decision decide(Duration at) {
    ownThread();
    Decision answer = Judge.decide(state, at);
    answered = answer;
    return answer;
  }

  /**
   * When the decision of a moment may change by itself, if nothing is told or done: its verdict,
   * the rule behind it, its firmness, or what is offered, unchecked or cautioned. What is said of
   * the agenda and the figures in texts go on with the time. Before then a host need not ask again;
   * it may turn out that the decision is still the same. Pure: asking changes nothing.
   *
   * @param at the moment; not before the last event
   * @return the first such moment; empty where there is none within 24 hours of the start
   * @throws ReadingRefused when the moment lies before the last event
   */
  public Optional<Duration> changesAt(Duration at) {
    ownThread();
    return Judge.changesAt(state, at);
  }

  /**
   * A rule with the value of every part under it, as it is looked at at a moment; for somebody who
   * wants to see how an answer came about.
   *
   * @param rule its id, as decisions name it: {@code "steady-and-high"}
   * @param at the moment; the age of readings is counted up to it
   * @throws NotFound when the protocol has no such rule
   */
  public Diagram diagram(Duration at, String rule) {
    ownThread();
    return new RuleDiagram(state, at).of(rule);
  }

  /**
   * Does what a decision recommends. It takes effect at the time of the decision. To follow
   * CONTINUE or MEASURE changes nothing.
   *
   * @throws DecisionOutdated when something has happened since the decision, or it is none of this
   *     session
   */
  public void follow(Decision decision) {
    ownThread();
    refuseOutdated(decision);
    act(decision, decision.verdict());
  }

  /**
   * Does what a decision offers instead.
   *
   * @throws DecisionOutdated when something has happened since the decision, or it is none of this
   *     session
   * @throws VerdictRefused when the decision does not offer it
   */
  public void follow(Decision decision, Decision.Offer offer) {
    ownThread();
    refuseOutdated(decision);
    if (!decision.offers().contains(offer)) {
      throw new VerdictRefused(
          Code.G602, offer.verdict().word(), "here", "the decision does not offer it");
    }
    act(decision, offer.verdict());
  }

  // The very object that was answered last needs no second look; an equal one gets it.
  @SuppressWarnings("ReferenceEquality")
  private void refuseOutdated(Decision decision) {
    if (decision.event() != state.events.size() || decision.at().compareTo(state.now) < 0) {
      throw new DecisionOutdated(
          Times.clock(decision.at()), "something was told or done at " + Times.clock(state.now));
    }
    // What would have been otherwise before is said once and changes nothing now.
    if (decision != answered
        && !decision.with(List.of()).equals(Judge.decide(state, decision.at()))) {
      throw new DecisionOutdated(Times.clock(decision.at()), "it is none of this session");
    }
  }

  /**
   * Does something else than is recommended. The record shows both.
   *
   * @param at when it takes effect
   * @param verdict what the tester decides: before the test to begin or to defer; in a stage to
   *     continue as it is, hold beyond the planned end, advance, finish or stop; in recovery to
   *     continue, end or stop
   * @param reason why, in the tester's words
   * @throws VerdictRefused when it is no way on from here; there is none after a followed stop but
   *     recovery
   * @throws ReadingRefused when it gives a load that lies outside what is possible for it
   */
  public void override(Duration at, Verdict verdict, String reason) {
    tell(new Event.Overridden(verdict, reason, at));
  }

  /**
   * Breaks the test off. Nothing more is decided or recorded then, recovery included.
   *
   * @param reason why, in the tester's words
   * @throws VerdictRefused when no reason is given or the test is over
   */
  public void abandon(Duration at, String reason) {
    tell(new Event.Abandoned(reason, at));
  }

  /** Where the test stands. */
  public Phase phase() {
    ownThread();
    return state.phase;
  }

  /** The protocol, with its settings. */
  public Protocol protocol() {
    ownThread();
    return state.protocol;
  }

  /** Everything that was told and done, in order. */
  public List<Event> events() {
    ownThread();
    return state.events.inOrder();
  }

  /** The test as it stands, for working out its result. */
  public Outcome outcome() {
    ownThread();
    return new StateOutcome(state);
  }

  private void ownThread() {
    if (Thread.currentThread() != owner) {
      throw new WrongThread(Thread.currentThread().getName(), owner.getName());
    }
  }
}
