package org.gradus.session;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/** Something a session was told. The events of a test, in order, are the whole of it. */
public sealed interface Event {

  /** What kind of event it is. Codes are stable; later versions may add some. */
  enum Kind {
    /** Readings. */
    READ,
    /** A sign or symptom is there, or a graded one has a grade. */
    REPORTED,
    /** A sign is over. */
    WITHDRAWN,
    /** Readings told before are put right. */
    AMENDED,
    /** A reading or report told before is not to count. */
    REJECTED,
    /** The load that is really set. */
    LOAD_SET,
    /** What was to be done in a stage has been done. */
    DONE,
    /** A verdict was followed. */
    FOLLOWED,
    /** The tester decided otherwise. */
    OVERRIDDEN,
    /** The tester broke the test off. */
    ABANDONED
  }

  /** What kind of event it is. */
  Kind kind();

  /** Hands this event to the method for its kind. */
  <R> R accept(Visitor<R> visitor);

  /**
   * One method for each kind, so that a new one does not compile until it is dealt with.
   *
   * @param <R> what is worked out
   */
  interface Visitor<R> {
    /** Readings. */
    R read(Read event);

    /** A sign or symptom is there, or a graded one has a grade. */
    R reported(Reported event);

    /** A sign is over. */
    R withdrawn(Withdrawn event);

    /** Readings told before are put right. */
    R amended(Amended event);

    /** A reading or report told before is not to count. */
    R rejected(Rejected event);

    /** The load that is really set. */
    R loadSet(LoadSet event);

    /** What was to be done in a stage has been done. */
    R done(Done event);

    /** A verdict was followed. */
    R followed(Followed event);

    /** The tester decided otherwise. */
    R overridden(Overridden event);

    /** The tester broke the test off. */
    R abandoned(Abandoned event);
  }

  private static List<Reading> singly(List<Reading> readings) {
    return readings.stream().flatMap(reading -> reading.parts().stream()).toList();
  }

  /** When it was told, since the start of the session. */
  Duration at();

  /**
   * Events as they count in the end: each reading as it was last amended, and what was rejected as
   * if it had told nothing. The list has the same length and order, so that numbers stay.
   *
   * @param told in order, as {@link Session#events} gave them
   * @throws org.gradus.diagnostic.ReadingRefused when one amends or rejects what was never told
   */
  static List<Event> counted(List<Event> told) {
    requireNonNull(told, "told");
    return List.copyOf(Amendments.counted(told));
  }

  /** The verdict that was acted upon: one that was followed, or chosen against the recommended. */
  default Optional<Verdict> actedOn() {
    return switch (kind()) {
      case FOLLOWED -> Optional.of(((Followed) this).verdict());
      case OVERRIDDEN -> Optional.of(((Overridden) this).verdict());
      case READ, REPORTED, WITHDRAWN, AMENDED, REJECTED, LOAD_SET, DONE, ABANDONED ->
          Optional.empty();
    };
  }

  /** The number of the event that it corrects, if it corrects one. */
  default OptionalInt corrects() {
    return switch (kind()) {
      case AMENDED -> OptionalInt.of(((Amended) this).event());
      case REJECTED -> OptionalInt.of(((Rejected) this).event());
      case READ, REPORTED, WITHDRAWN, LOAD_SET, DONE, FOLLOWED, OVERRIDDEN, ABANDONED ->
          OptionalInt.empty();
    };
  }

  /** Why it was done, in the tester's words; empty where no reason is asked for. */
  default String reason() {
    return "";
  }

  /**
   * Readings.
   *
   * @param readings what was read; one that has parts, such as a cuff reading, becomes its parts
   * @param taken when it was read
   * @param at when it was told
   */
  record Read(List<Reading> readings, Duration taken, Duration at) implements Event {
    public Read {
      requireNonNull(at, "at");
      requireNonNull(taken, "taken");
      readings = singly(readings);
    }

    /** What was read, or asked. */
    List<String> subjects() {
      List<String> names = new ArrayList<>();
      for (Reading reading : readings) {
        names.add(reading.subject());
      }
      return names;
    }

    @Override
    public Kind kind() {
      return Kind.READ;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.read(this);
    }
  }

  /**
   * A sign or symptom.
   *
   * @param sign which
   * @param grade its grade, for a graded one
   * @param at when it was told
   */
  record Reported(String sign, OptionalInt grade, Duration at) implements Event {
    public Reported {
      requireNonNull(at, "at");
      requireNonNull(grade, "grade");
      requireNonNull(sign, "sign");
    }

    @Override
    public Kind kind() {
      return Kind.REPORTED;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.reported(this);
    }
  }

  /**
   * A sign is over.
   *
   * @param sign which
   * @param reason why it is withdrawn
   * @param at when it was told
   */
  record Withdrawn(String sign, String reason, Duration at) implements Event {
    public Withdrawn {
      requireNonNull(at, "at");
      requireNonNull(reason, "reason");
      requireNonNull(sign, "sign");
    }

    @Override
    public Kind kind() {
      return Kind.WITHDRAWN;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.withdrawn(this);
    }
  }

  /**
   * Readings told before are put right. The first values stay in the record.
   *
   * @param event the number of the event that told them; the first event has number 1
   * @param readings what they should have been; of the same signals or questions
   * @param reason why
   * @param at when it was told
   */
  record Amended(int event, List<Reading> readings, String reason, Duration at) implements Event {
    public Amended {
      requireNonNull(at, "at");
      requireNonNull(reason, "reason");
      readings = singly(readings);
    }

    @Override
    public Kind kind() {
      return Kind.AMENDED;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.amended(this);
    }
  }

  /**
   * A reading or report told before is not to count, as if it had never been told. It stays in the
   * record.
   *
   * @param event the number of the event that told it; the first event has number 1
   * @param subject the signal, question or sign, or {@link Done#SUBJECT}
   * @param reason why
   * @param at when it was told
   */
  record Rejected(int event, String subject, String reason, Duration at) implements Event {
    public Rejected {
      requireNonNull(at, "at");
      requireNonNull(reason, "reason");
      requireNonNull(subject, "subject");
    }

    @Override
    public Kind kind() {
      return Kind.REJECTED;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.rejected(this);
    }
  }

  /**
   * The load that is really set.
   *
   * @param load the component and its value
   * @param at when it was set
   */
  record LoadSet(Loading load, Duration at) implements Event {
    public LoadSet {
      requireNonNull(at, "at");
      requireNonNull(load, "load");
    }

    @Override
    public Kind kind() {
      return Kind.LOAD_SET;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.loadSet(this);
    }
  }

  /**
   * What was to be done in a stage that lasts until it is done has been done.
   *
   * @param reached when it was done
   * @param at when it was told
   */
  record Done(Duration reached, Duration at) implements Event {

    /** What to call it by when it is taken back. */
    public static final String SUBJECT = "done";

    public Done {
      requireNonNull(at, "at");
      requireNonNull(reached, "reached");
    }

    @Override
    public Kind kind() {
      return Kind.DONE;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.done(this);
    }
  }

  /**
   * A verdict was followed.
   *
   * @param verdict which
   * @param at when it takes effect
   */
  record Followed(Verdict verdict, Duration at) implements Event {
    public Followed {
      requireNonNull(at, "at");
      verdict = Following.recorded(verdict);
    }

    @Override
    public Kind kind() {
      return Kind.FOLLOWED;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.followed(this);
    }
  }

  /**
   * The tester decided otherwise.
   *
   * @param verdict what the tester decided
   * @param reason why
   * @param at when it takes effect
   */
  record Overridden(Verdict verdict, String reason, Duration at) implements Event {
    public Overridden {
      requireNonNull(at, "at");
      requireNonNull(reason, "reason");
      requireNonNull(verdict, "verdict");
    }

    @Override
    public Kind kind() {
      return Kind.OVERRIDDEN;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.overridden(this);
    }
  }

  /**
   * The tester broke the test off.
   *
   * @param reason why
   * @param at when
   */
  record Abandoned(String reason, Duration at) implements Event {
    public Abandoned {
      requireNonNull(at, "at");
      requireNonNull(reason, "reason");
    }

    @Override
    public Kind kind() {
      return Kind.ABANDONED;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.abandoned(this);
    }
  }
}
