package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.List;
import java.util.Optional;

/**
 * One line of a schedule: what is read, when, and what happens if it is not.
 *
 * @param signals what is read together
 * @param timing when it is due
 * @param over for how long it is counted or averaged; the stretch ends when it is due
 * @param takes how long reading it keeps the tester busy
 * @param within how far from the due time a reading may be taken and still count for it
 * @param late how long after the due time a reading may be told
 * @param validFor how old a reading may be when a decision is due; empty: until the next one is due
 * @param ifMissing what a missing reading does to a decision
 * @param scale the rating scale, for ratings
 * @param named a name under which this one reading is known to rules, if it has one
 * @param posture how the person is placed for it, if that is said: {@code seated}
 * @param in the ids of the stages in which it is read; none: all of them
 */
public record MeasureLine(
    List<String> signals,
    Timing timing,
    Duration over,
    Duration takes,
    Duration within,
    Duration late,
    Optional<Duration> validFor,
    IfMissing ifMissing,
    Optional<String> scale,
    Optional<String> named,
    Optional<String> posture,
    List<String> in) {

  /** What a missing reading does to the decision at the end of a stage. */
  public enum IfMissing {
    /** The decision waits for it. */
    WAIT,
    /** The decision is made without it and says so. */
    GO_ON,
    /** The test is finished. */
    FINISH
  }

  public MeasureLine {
    requireNonNull(ifMissing, "ifMissing");
    requireNonNull(in, "in");
    requireNonNull(late, "late");
    requireNonNull(named, "named");
    requireNonNull(over, "over");
    requireNonNull(posture, "posture");
    requireNonNull(scale, "scale");
    requireNonNull(signals, "signals");
    requireNonNull(takes, "takes");
    requireNonNull(timing, "timing");
    requireNonNull(validFor, "validFor");
    requireNonNull(within, "within");
    signals = List.copyOf(signals);
    in = List.copyOf(in);
  }

  /** The same line, read in some stages only; none: in all of them. */
  public MeasureLine in(List<String> stages) {
    requireNonNull(stages, "stages");
    return new MeasureLine(
        signals, timing, over, takes, within, late, validFor, ifMissing, scale, named, posture,
        stages);
  }

  /** Whether it is read in a stage. */
  public boolean isReadIn(String stage) {
    requireNonNull(stage, "stage");
    return in.isEmpty() || in.contains(stage);
  }

  /** Whether this line reads a signal. */
  public boolean reads(String signal) {
    requireNonNull(signal, "signal");
    return signals.contains(signal);
  }

  /**
   * The due times since the start of a stage.
   *
   * @param stage how long it lasts
   * @param until up to when times are wanted, included; later than the stage was to last when it is
   *     held
   */
  public List<Duration> due(Stretch stage, Duration until) {
    requireNonNull(stage, "stage");
    requireNonNull(until, "until");
    return timing.due(stage, until);
  }

  /** The last due time not after a moment; empty when nothing is due by then. */
  public Optional<Duration> lastDue(Stretch stage, Duration moment) {
    requireNonNull(stage, "stage");
    return timing.lastDue(stage, moment);
  }

  /** Whether a reading is due at this very time. */
  public boolean isDueAt(Stretch stage, Duration time) {
    requireNonNull(stage, "stage");
    requireNonNull(time, "time");
    return lastDue(stage, time).filter(time::equals).isPresent();
  }
}
