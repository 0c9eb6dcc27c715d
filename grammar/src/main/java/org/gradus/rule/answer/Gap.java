package org.gradus.rule.answer;

import java.time.Duration;
import java.util.function.Function;

/**
 * Something that is not known, and why.
 *
 * @param subject the reading, answer or part of a formula
 * @param cause why it is not known
 * @param settle when it can be known
 */
public record Gap(String subject, Cause cause, Settle settle) {

  private static final Settle NOW = new Settle.Now();
  private static final Settle NEVER = new Settle.Never();

  /** Why something is not known. */
  public enum Cause {
    /** One reading was taken and a second has to agree. */
    UNCONFIRMED("to be read a second time"),
    /** No reading of it was taken. */
    NEVER_TAKEN("never taken"),
    /** The last reading is too old to count here. */
    STALE("too old"),
    /** There is no reading a stretch of time earlier to compare with. */
    NOTHING_EARLIER("no earlier reading to compare with"),
    /** It is not read in this stage. */
    NOT_IN_STAGE("not read in this stage"),
    /** The question was not answered, or the fact not given. */
    NOT_ANSWERED("not answered"),
    /** What was answered is not offered to this person. */
    NOT_OFFERED("not among what is offered to this person"),
    /** The formula has no value for these numbers, such as a division by zero. */
    UNDEFINED("no value for these numbers"),
    /** It lies outside the table. */
    OUT_OF_RANGE("outside the table"),
    /** The file says that there is none in this case. */
    NONE("none in this case"),
    /** Fewer than two stages can be used. */
    TOO_FEW_STAGES("fewer than two usable stages"),
    /** The line through the stages does not rise. */
    NOT_RISING("the line through the stages does not rise"),
    /** The line rises by no more than the readings may be off, or than the stages scatter. */
    RISE_UNCERTAIN("it does not rise by clearly more than the readings may be off"),
    /** How far readings may be off is not known, so they cannot be weighed against an anchor. */
    UNWEIGHTED("no file says how far its readings may be off"),
    /** The stages lie too close together for a line. */
    TOO_NARROW("the stages lie too close together"),
    /** No two neighbouring stages have the value between them. */
    NOT_REACHED("not reached"),
    /** More than two neighbouring stages have the value between them. */
    REACHED_AGAIN("reached more than once");

    private final String words;

    Cause(String words) {
      this.words = words;
    }

    /** The cause in a few words. */
    public String words() {
      return words;
    }
  }

  /** When an unknown can be settled. */
  public sealed interface Settle {

    /**
     * What comes of it, by which of them it is.
     *
     * @param <R> what comes of it
     */
    <R> R match(
        Function<Now, ? extends R> now,
        Function<At, ? extends R> at,
        Function<Never, ? extends R> never);

    /** At once. */
    record Now() implements Settle {
      @Override
      public <R> R match(
          Function<Now, ? extends R> now,
          Function<At, ? extends R> at,
          Function<Never, ? extends R> never) {
        return now.apply(this);
      }
    }

    /**
     * Not before a time.
     *
     * @param time since the start of the session
     */
    record At(Duration time) implements Settle {
      @Override
      public <R> R match(
          Function<Now, ? extends R> now,
          Function<At, ? extends R> at,
          Function<Never, ? extends R> never) {
        return at.apply(this);
      }
    }

    /** Not any more in this test. */
    record Never() implements Settle {
      @Override
      public <R> R match(
          Function<Now, ? extends R> now,
          Function<At, ? extends R> at,
          Function<Never, ? extends R> never) {
        return never.apply(this);
      }
    }
  }

  /** A gap that can be closed at once. */
  public static Gap now(String subject, Cause cause) {
    return new Gap(subject, cause, NOW);
  }

  /** A gap that can be closed at a time. */
  public static Gap at(Duration time, String subject, Cause cause) {
    return new Gap(subject, cause, new Settle.At(time));
  }

  /** A gap that stays. */
  public static Gap never(String subject, Cause cause) {
    return new Gap(subject, cause, NEVER);
  }

  /** The subject as people say it: {@code "heart rate"}; a part of a formula as it stands. */
  public String called() {
    return subject.matches("[A-Za-z][A-Za-z0-9_.]*")
        ? subject.replace('_', ' ').replace('.', ' ')
        : subject;
  }

  /** Subject and cause for people: {@code "heart rate: never taken"}. */
  public String inWords() {
    return called() + ": " + cause.words();
  }

  /** Subject and cause: {@code "heart_rate: never taken"}. */
  @Override
  public String toString() {
    return subject + ": " + cause.words();
  }
}
