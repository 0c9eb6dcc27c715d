package org.gradus.session;

import static java.util.Objects.requireNonNull;

import java.lang.ref.WeakReference;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Supplier;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.DecisionOutdated;
import org.gradus.diagnostic.EventConflict;
import org.gradus.diagnostic.NotFound;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.diagnostic.RecordRefused;
import org.gradus.diagnostic.SessionInUse;
import org.gradus.diagnostic.VerdictRefused;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.rule.answer.Diagram;
import org.gradus.words.Message;
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
 * refused leaves the session as it was, ready for the next event.
 *
 * <p><strong>Threads.</strong> A session may be used by any number of threads in turn: pools, lanes
 * and virtual threads all serve, and nothing has to be handed over. One event is told at a time. A
 * second one that is told meanwhile, by another thread or by a ledger or listener from within the
 * first, is refused with {@link SessionInUse} and has not happened. Methods that only ask, {@link
 * #decide} among them, are never refused: they see the session before the event or after it.
 *
 * <p><strong>Safety.</strong> Gradus advises a trained person, who decides. It is no medical
 * device. Medical clearance comes first; have an emergency plan; local rules and licensed practice
 * come before anything it says.
 */
public final class Session extends Telling {

  private final Ledger ledger;
  private final List<Listener> listeners = new CopyOnWriteArrayList<>();
  // The thread that tells an event, as long as it does.
  private final AtomicReference<@Nullable Thread> teller = new AtomicReference<>();
  private volatile TestState state;
  // The last answer as long as the host keeps it, so that a decision that is followed need not be
  // made a second time.
  private volatile WeakReference<Decision> answered = new WeakReference<>(null);

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
    requireNonNull(ledger, "ledger");
    requireNonNull(person, "person");
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
    requireNonNull(ledger, "ledger");
    requireNonNull(person, "person");
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
    requireNonNull(person, "person");
    requireNonNull(shown, "shown");
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
    requireNonNull(other, "other");
    requireNonNull(person, "person");
    requireNonNull(shown, "shown");
    TestState state = TestState.open(other, person);
    for (Event event : events) {
      StateAt next = EventApplier.suppose(state, event);
      shown.keep(next.number(), event, Hindsight.answer(state, event, next));
      state = next.state();
    }
  }

  /**
   * A copy to try out what would be. Its events reach no ledger and no listener, and do not touch
   * this session.
   */
  public Session fork() {
    return new Session(state, Ledger.NONE);
  }

  /**
   * The same session, which expects the next thing it is told to be the event of a number, so that
   * a host can tell it again when it does not know whether it arrived.
   *
   * <pre>{@code
   * session.asEvent(7).record(at("3:00"), pulse(28, seconds(15)));
   * session.asEvent(7).record(at("3:00"), pulse(28, seconds(15)));   // the same answer; no event 8
   * }</pre>
   *
   * <p>If event 7 is the next one, it is told as always. If the session has an event 7 that says
   * the same, nothing is recorded, and the answer is the one that it had then. Otherwise it is
   * refused. An answer that is repeated after further events is outdated, as {@link Decision#event}
   * says.
   *
   * @param number the number that the event is to have; the first event of a session has number 1,
   *     and the next one the {@link Decision#event} of the last answer plus one
   * @return on which everything throws {@link EventConflict} where that event says something else,
   *     or where events between are missing
   */
  public Telling asEvent(int number) {
    return new NumberedTelling(this, number);
  }

  /**
   * Lets a listener know of every event from now on, after it counts: {@link #events} has it, and a
   * ledger has kept it. A repeated event ({@link #asEvent}) is not news.
   *
   * <p>A listener is called by the thread that told the event, before its answer is returned. It
   * may ask the session anything and tell it nothing. What it throws neither undoes the event nor
   * reaches the one who told it; it goes to the handler of uncaught exceptions of the thread.
   */
  public void listen(Listener listener) {
    listeners.add(requireNonNull(listener, "listener"));
  }

  /** Lets a listener know of no further event. Nothing happens if it did not listen. */
  public void unlisten(Listener listener) {
    listeners.remove(requireNonNull(listener, "listener"));
  }

  @Override
  public Decision tell(Event event) {
    requireNonNull(event, "event");
    return exclusively(() -> take(event));
  }

  /** Tells an event that is to have a number. */
  Decision tellAs(int number, Event event) {
    requireNonNull(event, "event");
    return exclusively(() -> answerTo(number, event).orElseGet(() -> take(event)));
  }

  @Override
  public Decision follow(Decision decision) {
    requireNonNull(decision, "decision");
    return exclusively(() -> act(decision, decision.verdict()));
  }

  @Override
  public Decision follow(Decision decision, Decision.Offer offer) {
    refuseUnlessOffered(decision, offer);
    return exclusively(() -> act(decision, offer.verdict()));
  }

  /** Follows a verdict of a decision as the event of a number. */
  Decision followAs(int number, Decision decision, Verdict verdict) {
    if (!Following.doesSomething(verdict)) {
      return exclusively(() -> act(decision, verdict));
    }
    Event event = new Event.Followed(verdict, decision.at());
    return exclusively(() -> answerTo(number, event).orElseGet(() -> act(decision, verdict)));
  }

  static void refuseUnlessOffered(Decision decision, Decision.Offer offer) {
    requireNonNull(decision, "decision");
    requireNonNull(offer, "offer");
    if (!decision.offers().contains(offer)) {
      throw new VerdictRefused(
          Code.G602,
          VerdictMessages.word(offer.verdict().kind()),
          SessionMessage.HERE,
          SessionMessage.NOT_OFFERED);
    }
  }

  private Decision exclusively(Supplier<Decision> event) {
    Thread thread = Thread.currentThread();
    if (!teller.compareAndSet(null, thread)) {
      Thread other = teller.get();
      throw new SessionInUse(name(thread), other == null ? "another one" : name(other));
    }
    try {
      return event.get();
    } finally {
      teller.set(null);
    }
  }

  // Virtual threads have no name unless they are given one.
  private static String name(Thread thread) {
    return thread.getName().isEmpty() ? thread.toString() : thread.getName();
  }

  private Decision act(Decision decision, Verdict verdict) {
    refuseOutdated(decision);
    if (!Following.doesSomething(verdict)) {
      return decision;
    }
    Event.Followed event = new Event.Followed(verdict, decision.at());
    return take(event, EventApplier.follow(state, event, decision));
  }

  private Decision take(Event event) {
    refuseEmpty(event);
    return take(event, EventApplier.apply(state, event));
  }

  // Records of earlier versions may have such events; they are read.
  private static void refuseEmpty(Event event) {
    if (event instanceof Event.Read read && read.readings().isEmpty()) {
      throw new ReadingRefused(
          Code.G623, "an event of readings", "empty", "give at least one reading or answer");
    }
  }

  private Decision take(Event event, StateAt next) {
    Decision answer = Hindsight.answer(state, event, next);
    ledger.keep(next.number(), event, answer);
    state = next.state();
    answered = new WeakReference<>(answer);
    for (Listener listener : listeners) {
      try {
        listener.happened(next.number(), event, answer);
      } catch (RuntimeException e) {
        Thread thread = Thread.currentThread();
        thread.getUncaughtExceptionHandler().uncaughtException(thread, e);
      }
    }
    return answer;
  }

  /**
   * The answer to an event that was told before, as it was then; empty where the number is that of
   * the next event.
   *
   * @throws EventConflict when the number is that of another event, or of none
   */
  private Optional<Decision> answerTo(int number, Event event) {
    TestState now = state;
    List<Event> told = now.events.inOrder();
    if (number == told.size() + 1) {
      return Optional.empty();
    } else if (number < 1 || number > told.size()) {
      throw new EventConflict(number, Message.of(SessionMessage.NEXT_EVENT_IS, told.size() + 1));
    } else if (!told.get(number - 1).equals(event)) {
      throw new EventConflict(
          number, Message.of(SessionMessage.NUMBER_IS_TAKEN, told.get(number - 1).kind().name()));
    }
    List<Retold> retold = Retold.of(now.protocol, now.person, told.subList(0, number));
    return Optional.of(retold.get(number - 1).answer());
  }

  /**
   * What to do at a moment, and why. Pure: asking changes nothing.
   *
   * @param at the moment; not before the last event
   * @throws ReadingRefused when the moment lies before the last event
   */
  public Decision decide(Duration at) {
    requireNonNull(at, "at");
    Decision answer = Judge.decide(state, at);
    answered = new WeakReference<>(answer);
    return answer;
  }

  /**
   * When the decision of a moment may change by itself: {@link Decision#changesAt} without the
   * decision. Pure: asking changes nothing.
   *
   * @param at the moment; not before the last event
   * @return the first such moment; empty where there is none within 24 hours of the start
   * @throws ReadingRefused when the moment lies before the last event
   */
  public Optional<Duration> changesAt(Duration at) {
    requireNonNull(at, "at");
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
    requireNonNull(at, "at");
    requireNonNull(rule, "rule");
    return new RuleDiagram(state, at).of(rule);
  }

  // The very object that was answered last needs no second look; an equal one gets it.
  private void refuseOutdated(Decision decision) {
    if (decision.event() != state.events.size() || decision.at().compareTo(state.now) < 0) {
      throw new DecisionOutdated(
          Times.clock(decision.at()),
          Message.of(SessionMessage.TOLD_SINCE, Times.clock(state.now)));
    }
    // What would have been otherwise before is said once and changes nothing now.
    if (!answered.refersTo(decision)
        && !decision.with(List.of()).equals(Judge.decide(state, decision.at()))) {
      throw new DecisionOutdated(
          Times.clock(decision.at()), Message.of(SessionMessage.OF_ANOTHER_SESSION));
    }
  }

  /** Where the test stands. */
  public Phase phase() {
    return state.phase;
  }

  /** The protocol, with its settings. */
  public Protocol protocol() {
    return state.protocol;
  }

  /** Everything that was told and done, in order. */
  public List<Event> events() {
    return state.events.inOrder();
  }

  /** The test as it stands, for working out its result. */
  public Outcome outcome() {
    return new StateOutcome(state);
  }
}
