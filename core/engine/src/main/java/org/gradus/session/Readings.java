package org.gradus.session;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.Optional;
import org.gradus.diagnostic.ValueRefused;
import org.gradus.protocol.Instruments;
import org.gradus.protocol.Posture;
import org.gradus.session.Reading.Measured;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** Short ways to write readings. */
public final class Readings {

  private static final Duration SHORTEST_WINDOW = Duration.ofMillis(1);

  private Readings() {}

  /** A heart rate as a device shows it, in beats per minute. */
  public static Reading heartRate(double bpm) {
    return measured("heart_rate", Quantity.of(bpm, Unit.BPM));
  }

  /**
   * A pulse counted for a time: {@code pulse(26, seconds(15))} is 104 bpm, known to a step of 4
   * bpm, since one beat more or less is that much.
   *
   * @throws ValueRefused when the window is shorter than a millisecond or longer than any test
   */
  public static Reading pulse(int beats, Duration window) {
    if (window.compareTo(SHORTEST_WINDOW) < 0 || window.compareTo(Times.LONGEST) > 0) {
      throw new ValueRefused(
          "the time for which a pulse is counted",
          window.getSeconds() + window.getNano() / 1e9 + " s",
          "count for some seconds, such as 15 s");
    }
    double perBeat = 60_000.0 / window.toMillis();
    Quantity rate = Quantity.of(beats * perBeat, Unit.BPM);
    return new Measured(
        "heart_rate", rate, Optional.of(Quantity.of(perBeat, Unit.BPM)), Optional.empty());
  }

  /** A cuff pressure in mmHg. */
  public static Reading pressure(double systolic, double diastolic) {
    return new Reading.Pressure(
        measured("systolic", Quantity.of(systolic, Unit.MMHG)),
        measured("diastolic", Quantity.of(diastolic, Unit.MMHG)));
  }

  /**
   * A rating of perceived exertion on a scale the protocol declares: {@code rating(13,
   * "rpe_6_20")}.
   */
  public static Reading rating(double rating, String scale) {
    requireNonNull(scale, "scale");
    return new Measured("rpe", Quantity.of(rating, Unit.ONE), Optional.empty(), Optional.of(scale));
  }

  /** Any signal with a value. */
  public static Measured measured(String signal, Quantity value) {
    requireNonNull(signal, "signal");
    requireNonNull(value, "value");
    return new Measured(signal, value, Optional.empty(), Optional.empty());
  }

  /** One of the words of a signal or question: {@code chosen("gait", "running")}. */
  public static Reading chosen(String subject, String word) {
    requireNonNull(subject, "subject");
    requireNonNull(word, "word");
    return new Reading.Chosen(subject, word);
  }

  /** An answer to a yes-no question. */
  public static Reading answer(String question, boolean yes) {
    requireNonNull(question, "question");
    return new Reading.Answered(question, yes);
  }

  /**
   * Whether the person has been cleared for exercise after the stop that ended the test, by
   * somebody who may do so. It is told in recovery, and no training plan is made before; of several
   * the last one counts. A test whose recovery is over is closed: tell the report then.
   */
  public static Reading clearedAfterStop(boolean cleared) {
    return new Reading.Answered(Instruments.CLEARED_AFTER_STOP, cleared);
  }

  /** An answer that is a quantity: {@code answer("since_meal", hours(4))}. */
  public static Reading answer(String question, Quantity value) {
    requireNonNull(question, "question");
    requireNonNull(value, "value");
    return measured(question, value);
  }

  /** A reading taken at rest, seated, before the test. */
  public static Reading resting(Reading reading) {
    requireNonNull(reading, "reading");
    return new Reading.Baseline(Posture.RESTING, reading);
  }

  /** A reading taken standing on the ergometer, before the test. */
  public static Reading upright(Reading reading) {
    requireNonNull(reading, "reading");
    return new Reading.Baseline(Posture.UPRIGHT, reading);
  }
}
