package org.gradus.exchange.device;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import org.gradus.diagnostic.ValueRefused;
import org.gradus.protocol.Posture;
import org.gradus.session.Agenda;
import org.gradus.session.Reading;
import org.gradus.session.Readings;
import org.gradus.session.Times;

/**
 * Makes the readings that a protocol asks for out of a stream of heart rates, once a second or beat
 * by beat.
 *
 * <pre>{@code
 * HeartRateStream stream = new HeartRateStream(HeartRateStream.Limits.USUAL);
 * stream.message(at, HeartRateMessage.decode(bytes));          // about once a second
 *
 * StreamReading reading = stream.read(item);                   // when an item of the agenda is due
 * if (reading instanceof StreamReading.Taken taken) {
 *   session.recordTaken(now, taken.at(), taken.reading());
 * }
 * }</pre>
 *
 * <p>A reading is the mean over the window that the protocol counts: {@code each: 1 min over 15 s}
 * gives one at 1:00 over 0:45 to 1:00. It is the number of beats in the window divided by its time,
 * rounded to whole beats per minute. A window in which the stream has a gap, or a jump that no
 * heart makes, gives no reading but the reason, and the tester counts by hand.
 *
 * <p>A stream belongs to one thread, as its session does. It remembers {@link #REMEMBERED} of the
 * past, whatever is told.
 */
public final class HeartRateStream {

  /** How much of the past is remembered, at most. */
  public static final Duration REMEMBERED = Duration.ofMinutes(5);

  private static final String HEART_RATE = "heart_rate";
  private static final double MILLIS_PER_MINUTE = 60_000.0;

  private final Limits limits;
  private final Deque<Sample> samples = new ArrayDeque<>();

  /**
   * What a window may contain.
   *
   * @param gap the longest time without a heart rate, above zero
   * @param jump the largest change between two rates that follow each other, in beats per minute,
   *     above zero
   * @param shortest the window of a reading for which the protocol gives none
   */
  public record Limits(Duration gap, double jump, Duration shortest) {

    /** 3 s, 25 bpm and 5 s: common practice, no published source. */
    public static final Limits USUAL = new Limits(Duration.ofSeconds(3), 25, Duration.ofSeconds(5));

    /**
     * Limits.
     *
     * @throws ValueRefused when one of them is not above zero
     */
    public Limits {
      if (gap.isNegative() || gap.isZero() || shortest.isNegative() || shortest.isZero()) {
        throw new ValueRefused(
            "the longest gap and the shortest window",
            Times.exact(gap) + " and " + Times.exact(shortest),
            "give times above zero");
      }
      if (!(jump > 0)) {
        throw new ValueRefused("the largest jump", jump + " bpm", "give one above 0 bpm");
      }
    }
  }

  // A rate that held for a time up to a moment.
  private record Sample(Duration from, Duration to, double rate) {}

  /** A stream without a heart rate yet. */
  public HeartRateStream(Limits limits) {
    requireNonNull(limits, "limits");
    this.limits = limits;
  }

  /**
   * Tells what a strap has sent. Without skin contact, and while the strap finds no heart rate, the
   * message is a gap. The rate of the message counts, not its intervals.
   *
   * @param at when it arrived, since the start of the session
   * @throws ValueRefused when the time is not after that of what was told before
   */
  public void message(Duration at, HeartRateMessage message) {
    if (message.reading().isPresent()) {
      rate(at, message.rate());
    }
  }

  /**
   * Tells a heart rate, as a device shows it about once a second. It counts for the time since the
   * one before, up to the longest gap.
   *
   * @param at when, since the start of the session
   * @param bpm the rate, above 0
   * @throws ValueRefused when the time is not after that of what was told before, or the rate is
   *     not above 0
   */
  public void rate(Duration at, double bpm) {
    Duration second = Duration.ofSeconds(1);
    Duration since = samples.isEmpty() ? second : at.minus(samples.getLast().to());
    add(at, since.compareTo(limits.gap()) > 0 ? second : since, bpm);
  }

  /**
   * Tells a beat.
   *
   * @param at when it was, since the start of the session
   * @param interval the time since the beat before
   * @throws ValueRefused when the time is not after that of what was told before, or the interval
   *     is not above zero
   */
  public void beat(Duration at, Duration interval) {
    if (interval.isNegative() || interval.isZero()) {
      throw new ValueRefused(
          "an interval between beats", Times.exact(interval), "give one above zero");
    }
    add(at, interval, MILLIS_PER_MINUTE / (interval.toNanos() / 1e6));
  }

  private void add(Duration at, Duration lasted, double rate) {
    if (!samples.isEmpty() && at.compareTo(samples.getLast().to()) <= 0) {
      throw new ValueRefused(
          "the time of a heart rate after one at " + Times.clock(samples.getLast().to()),
          Times.clock(at),
          "tell them in order");
    }
    if (!(rate > 0)) {
      throw new ValueRefused("a heart rate", rate + " bpm", "give one above 0 bpm");
    }
    samples.addLast(new Sample(at.minus(lasted), at, rate));
    while (samples.getFirst().to().compareTo(at.minus(REMEMBERED)) < 0) {
      samples.removeFirst();
    }
  }

  /**
   * The reading for an item of the agenda that is due.
   *
   * @param item one that reads a heart rate; of a reading before the test the posture is kept
   * @throws ValueRefused when the item reads no heart rate
   */
  public StreamReading read(Agenda.Item item) {
    Agenda.ToRead wanted =
        item.readings().stream()
            .filter(HeartRateStream::isHeartRate)
            .findFirst()
            .orElseThrow(
                () ->
                    new ValueRefused(
                        "an item of " + item.names(),
                        "read from a stream of heart rates",
                        "ask for one that reads a heart rate"));
    StreamReading reading = read(item.begin(), item.due());
    return wanted.before().map(posture -> inPosture(posture, reading)).orElse(reading);
  }

  /** Whether an item of the agenda reads a heart rate, so that {@link #read} can answer it. */
  public static boolean reads(Agenda.Item item) {
    return item.readings().stream().anyMatch(HeartRateStream::isHeartRate);
  }

  private static boolean isHeartRate(Agenda.ToRead reading) {
    return reading.signal().equals(HEART_RATE);
  }

  private static StreamReading inPosture(Posture posture, StreamReading reading) {
    if (reading instanceof StreamReading.Taken taken) {
      Reading placed = new Reading.Baseline(posture, taken.reading());
      return new StreamReading.Taken(taken.at(), placed);
    }
    return reading;
  }

  /**
   * The reading of a window.
   *
   * @param begin when the window begins, since the start of the session
   * @param due when it ends; where both are the same, the shortest window counts
   */
  public StreamReading read(Duration begin, Duration due) {
    requireNonNull(begin, "begin");
    Duration from = due.minus(limits.shortest()).compareTo(begin) < 0 ? shortestUpTo(due) : begin;
    List<Sample> inside = new ArrayList<>();
    for (Sample sample : samples) {
      if (sample.to().compareTo(from) > 0 && sample.from().compareTo(due) < 0) {
        inside.add(sample);
      }
    }
    String reason = fault(inside, from, due);
    return reason.isEmpty()
        ? new StreamReading.Taken(due, Readings.heartRate(Math.rint(mean(inside, from, due))))
        : new StreamReading.NotTaken(reason);
  }

  private Duration shortestUpTo(Duration due) {
    return due.minus(limits.shortest());
  }

  private String fault(List<Sample> inside, Duration from, Duration due) {
    Duration covered = from;
    double last = Double.NaN;
    for (Sample sample : inside) {
      if (sample.from().minus(limits.gap()).compareTo(covered) > 0) {
        return gap(covered, sample.from());
      }
      if (Math.abs(sample.rate() - last) > limits.jump()) {
        return "the heart rate jumps from "
            + Math.round(last)
            + " to "
            + Math.round(sample.rate())
            + " bpm at "
            + Times.clock(sample.to())
            + "; check the strap and count by hand";
      }
      last = sample.rate();
      covered = sample.to();
    }
    return inside.isEmpty() || due.minus(limits.gap()).compareTo(covered) > 0
        ? gap(covered, due)
        : "";
  }

  private static String gap(Duration from, Duration to) {
    return "no heart rate came from "
        + Times.clock(from)
        + " to "
        + Times.clock(to)
        + "; check the strap and count by hand";
  }

  // Beats over time, each sample as far as it lies in the window.
  private static double mean(List<Sample> inside, Duration from, Duration due) {
    double beats = 0;
    double time = 0;
    for (Sample sample : inside) {
      Duration begin = sample.from().compareTo(from) < 0 ? from : sample.from();
      Duration end = sample.to().compareTo(due) > 0 ? due : sample.to();
      double lasted = end.minus(begin).toNanos();
      beats += lasted * sample.rate();
      time += lasted;
    }
    return beats / time;
  }
}
