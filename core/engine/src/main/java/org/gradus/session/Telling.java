package org.gradus.session;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.List;
import java.util.OptionalInt;
import org.gradus.diagnostic.DecisionOutdated;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.diagnostic.VerdictRefused;

/**
 * What can be told to a test while it goes on: what is read, seen, set and done. Each event is
 * answered with the decision of its moment; what is refused leaves everything as it was.
 *
 * <p>Every method here throws {@link org.gradus.diagnostic.SessionInUse} while another event is
 * being told, and {@link org.gradus.diagnostic.JournalFailed} when a ledger cannot keep the event.
 */
public abstract sealed class Telling permits Session, NumberedTelling {

  /** The most characters of a reason; a longer one is refused. */
  public static final int LONGEST_REASON = 2_000;

  Telling() {}

  /**
   * Tells any event, such as one that a host received or stored. The other methods are short ways
   * to write one.
   *
   * @return the decision of its moment
   * @throws ReadingRefused when it cannot be or does not belong here; nothing is then recorded
   * @throws VerdictRefused when it follows what is neither recommended nor offered at its moment,
   *     or overrides with what is no way on from there
   */
  public abstract Decision tell(Event event);

  /**
   * Does what a decision recommends. It takes effect at the time of the decision. To follow
   * CONTINUE, MEASURE or OVER does nothing and returns the decision itself.
   *
   * @return the decision of the same moment once it is done
   * @throws DecisionOutdated when something has happened since the decision, or it is none of this
   *     session
   */
  public abstract Decision follow(Decision decision);

  /**
   * Does what a decision offers instead.
   *
   * @return the decision of the same moment once it is done
   * @throws DecisionOutdated when something has happened since the decision, or it is none of this
   *     session
   * @throws VerdictRefused when the decision does not offer it
   */
  public abstract Decision follow(Decision decision, Decision.Offer offer);

  /**
   * Does something else than is recommended. The record shows both.
   *
   * @param at when it takes effect
   * @param verdict what the tester decides: before the test to begin or to defer; in a stage to
   *     continue as it is, hold beyond the planned end, advance, finish or stop; in recovery to
   *     continue, end or stop
   * @param reason why, in the tester's words
   * @return the decision of the same moment once it is done
   * @throws VerdictRefused when it is no way on from here; there is none after a followed stop but
   *     recovery
   * @throws ReadingRefused when it gives a load that lies outside what is possible for it
   */
  public Decision override(Duration at, Verdict verdict, String reason) {
    return tell(new Event.Overridden(verdict, reason, at));
  }

  /**
   * Breaks the test off. Nothing more is decided or recorded then, recovery included.
   *
   * @param reason why, in the tester's words
   * @return that the test is over
   * @throws VerdictRefused when no reason is given or the test is over
   */
  public Decision abandon(Duration at, String reason) {
    return tell(new Event.Abandoned(reason, at));
  }

  /**
   * Tells readings that were just taken, or answers.
   *
   * @param at now, since the start of the session
   * @return the decision of this moment
   * @throws ReadingRefused when a reading cannot be or does not belong here, or none is given;
   *     nothing is then recorded
   */
  public Decision record(Duration at, Reading... readings) {
    requireNonNull(readings, "readings");
    return recordTaken(at, at, readings);
  }

  /**
   * Tells readings that were taken earlier.
   *
   * @param at now; not before {@code taken}
   * @param taken when they were taken
   * @return the decision of this moment
   * @throws ReadingRefused when a reading cannot be or does not belong here, or none is given;
   *     nothing is then recorded
   */
  public Decision recordTaken(Duration at, Duration taken, Reading... readings) {
    requireNonNull(readings, "readings");
    return tell(new Event.Read(List.of(readings), taken, at));
  }

  /**
   * Reports a sign or symptom that is there or not.
   *
   * @param sign its name in the protocol: {@code chest_pain}
   * @throws ReadingRefused when the protocol does not know it, or grades it
   */
  public Decision report(Duration at, String sign) {
    return tell(new Event.Reported(sign, OptionalInt.empty(), at));
  }

  /**
   * Reports a graded sign or symptom.
   *
   * @param sign its name in the protocol: {@code breathless}
   * @param grade from 0, none, to the highest grade the protocol has
   * @throws ReadingRefused when the protocol does not know it, or does not have the grade
   */
  public Decision report(Duration at, String sign, int grade) {
    return tell(new Event.Reported(sign, OptionalInt.of(grade), at));
  }

  /**
   * Withdraws a sign: it is over, and if the exercise was stopped for it recovery may end. One that
   * was reported by mistake is taken back by {@link #reject}.
   *
   * @param reason how it is known
   * @throws ReadingRefused when the protocol does not know it, when it was never reported, or when
   *     no reason is given
   */
  public Decision withdraw(Duration at, String sign, String reason) {
    return tell(new Event.Withdrawn(sign, reason, at));
  }

  /**
   * Tells the load that is really set, where it differs. Readings under the old load no longer
   * count.
   *
   * @throws ReadingRefused when no stage lasts, its load has no such component, or what would be
   *     set then lies outside what is possible for it
   */
  public Decision loadSet(Duration at, Loading load) {
    return tell(new Event.LoadSet(load, at));
  }

  /**
   * Tells that what was to be done in this stage is done just now: the line is crossed.
   *
   * @throws ReadingRefused when no stage lasts until it is done
   */
  public Decision done(Duration at) {
    return done(at, at);
  }

  /**
   * Tells that what was to be done in this stage was done earlier.
   *
   * @param reached when it was done
   * @param at now; not before {@code reached}
   * @throws ReadingRefused when no stage lasts until it is done, or it cannot have been done then
   */
  public Decision done(Duration at, Duration reached) {
    return tell(new Event.Done(reached, at));
  }

  /**
   * Puts a reading right that was told before; the first value stays in the record. Verdicts that
   * were followed stand; what rests on the reading from now on rests on the new value, and a stop
   * that it alone had raised is undone.
   *
   * @param event the number of the event that told it: {@link Decision#event} of its answer
   * @param reading what it should have been, of the same signal or question
   * @param reason why
   * @throws ReadingRefused when no such reading was told, when the new value cannot be, or when no
   *     reason is given
   */
  public Decision amend(Duration at, int event, Reading reading, String reason) {
    requireNonNull(reading, "reading");
    return tell(new Event.Amended(event, List.of(reading), reason, at));
  }

  /**
   * Takes a reading or a reported sign back that was told before; it stays in the record but does
   * not count, as if it had never been told. A stop that it alone had raised is undone.
   *
   * @param event the number of the event that told it: {@link Decision#event} of its answer
   * @param subject the signal, question or sign, or {@link Event.Done#SUBJECT}
   * @param reason why
   * @throws ReadingRefused when it was not told then, or no reason is given
   */
  public Decision reject(Duration at, int event, String subject, String reason) {
    return tell(new Event.Rejected(event, subject, reason, at));
  }

  /**
   * Tells readings of a sensor that may send what cannot be; for streams, where a refusal is
   * nothing exceptional.
   */
  public Admission admit(Duration at, Reading... readings) {
    requireNonNull(readings, "readings");
    try {
      return new Admission.Admitted(record(at, readings));
    } catch (ReadingRefused refused) {
      return new Admission.Refused(refused);
    }
  }
}
