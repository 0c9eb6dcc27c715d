package org.gradus.rule.answer;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.Locale;
import java.util.ResourceBundle;
import java.util.function.Function;
import org.gradus.words.FileText;
import org.gradus.words.Joined;
import org.gradus.words.Message;
import org.gradus.words.MessageKey;
import org.gradus.words.Name;

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

  public Gap {
    requireNonNull(cause, "cause");
    requireNonNull(settle, "settle");
    requireNonNull(subject, "subject");
  }

  /** Why something is not known. */
  public enum Cause implements MessageKey {
    /** One reading was taken and a second has to agree. */
    UNCONFIRMED,
    /** No reading of it was taken. */
    NEVER_TAKEN,
    /** The last reading is too old to count here. */
    STALE,
    /** There is no reading a stretch of time earlier to compare with. */
    NOTHING_EARLIER,
    /** It is not read in this stage. */
    NOT_IN_STAGE,
    /** The question was not answered, or the fact not given. */
    NOT_ANSWERED,
    /** What was answered is not offered to this person. */
    NOT_OFFERED,
    /** The formula has no value for these numbers, such as a division by zero. */
    UNDEFINED,
    /** It lies outside the table. */
    OUT_OF_RANGE,
    /** The file says that there is none in this case. */
    NONE,
    /** Fewer than two stages can be used. */
    TOO_FEW_STAGES,
    /** The line through the stages does not rise. */
    NOT_RISING,
    /** The line rises by no more than the readings may be off, or than the stages scatter. */
    RISE_UNCERTAIN,
    /** How far readings may be off is not known, so they cannot be weighed against an anchor. */
    UNWEIGHTED,
    /** The stages lie too close together for a line. */
    TOO_NARROW,
    /** No two neighbouring stages have the value between them. */
    NOT_REACHED,
    /** More than two neighbouring stages have the value between them. */
    REACHED_AGAIN;

    /** The cause in a few words of English. */
    public String words() {
      return Message.of(this).toString();
    }

    @Override
    public String pattern(Locale language) {
      requireNonNull(language, "language");
      return ResourceBundle.getBundle("org.gradus.rule.answer.Gap", language).getString(name());
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
      public At {
        requireNonNull(time, "time");
      }

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
    requireNonNull(cause, "cause");
    requireNonNull(subject, "subject");
    return new Gap(subject, cause, NOW);
  }

  /** A gap that can be closed at a time. */
  public static Gap at(Duration time, String subject, Cause cause) {
    requireNonNull(cause, "cause");
    requireNonNull(subject, "subject");
    requireNonNull(time, "time");
    return new Gap(subject, cause, new Settle.At(time));
  }

  /** A gap that stays. */
  public static Gap never(String subject, Cause cause) {
    requireNonNull(cause, "cause");
    requireNonNull(subject, "subject");
    return new Gap(subject, cause, NEVER);
  }

  /** The subject as an argument of a message: a name, or a part of a formula as it stands. */
  public Object said() {
    return subject.matches("[A-Za-z][A-Za-z0-9_.]*") ? new Name(subject) : new FileText(subject);
  }

  /** The subject as people say it: {@code "heart rate"}; a part of a formula as it stands. */
  public String called() {
    return said().toString();
  }

  /** Subject and cause, to be said in any language. */
  public Message message() {
    return Message.of(Joined.COLON, said(), cause);
  }

  /** Subject and cause for people: {@code "heart rate: never taken"}. */
  public String inWords() {
    return message().toString();
  }

  /** Subject and cause: {@code "heart_rate: never taken"}. */
  @Override
  public String toString() {
    return subject + ": " + cause.words();
  }
}
