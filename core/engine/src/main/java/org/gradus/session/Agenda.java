package org.gradus.session;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.gradus.protocol.Posture;
import org.gradus.protocol.Sign;
import org.gradus.unit.Quantity;
import org.gradus.unit.QuantityRange;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;

/**
 * What there is to do until the next decision, in order of precedence where times are equal.
 *
 * @param items readings that are still to be taken, or were missed
 * @param questions the signs that the person is asked about again and again, from before the test
 *     to the end of recovery
 * @param cues what to say or to look for, and when
 * @param asks what is answered before the test and has not been yet
 * @param load what is set now
 * @param posture how the person is placed now, where the protocol says so: {@code standing}
 * @param next what is to be set next without a further decision, if anything is
 * @param symptoms what the exercise was stopped for and is not known to have gone: it has to be
 *     asked about in recovery, which does not end before it has
 * @param whenDone what is done when the stage is done, where the stage lasts until then
 */
public record Agenda(
    List<Item> items,
    List<Sign> questions,
    List<Reminder> cues,
    List<Ask> asks,
    List<Loading> load,
    Optional<String> posture,
    Optional<Change> next,
    List<Symptom> symptoms,
    Optional<WhenDone> whenDone) {

  /** Nothing to do. */
  public static final Agenda EMPTY =
      new Agenda(
          List.of(),
          List.of(),
          List.of(),
          List.of(),
          List.of(),
          Optional.empty(),
          Optional.empty(),
          List.of(),
          Optional.empty());

  public Agenda {
    requireNonNull(asks, "asks");
    requireNonNull(cues, "cues");
    requireNonNull(items, "items");
    requireNonNull(load, "load");
    requireNonNull(next, "next");
    requireNonNull(posture, "posture");
    requireNonNull(questions, "questions");
    requireNonNull(symptoms, "symptoms");
    requireNonNull(whenDone, "whenDone");
    items = List.copyOf(items);
    questions = List.copyOf(questions);
    cues = List.copyOf(cues);
    asks = List.copyOf(asks);
    load = List.copyOf(load);
    symptoms = List.copyOf(symptoms);
  }

  /**
   * The end of a stage that lasts until it is done, such as a mile that is walked: tell {@link
   * Session#done} then, and take these readings at once.
   *
   * @param readings what is read then; nothing where nothing is
   */
  public record WhenDone(List<ToRead> readings) {
    public WhenDone {
      requireNonNull(readings, "readings");
      readings = List.copyOf(readings);
    }

    /** The names of the readings. */
    public List<String> names() {
      return readings.stream().map(ToRead::name).toList();
    }
  }

  /**
   * Something that stopped the exercise. Once it has gone, {@link Session#withdraw} it, or report
   * it with grade 0 where it has grades.
   *
   * @param sign its name in the protocol: {@code chest_pain}
   * @param prompt the words to ask with, or what to look for
   */
  public record Symptom(String sign, String prompt) {
    public Symptom {
      requireNonNull(prompt, "prompt");
      requireNonNull(sign, "sign");
    }
  }

  /**
   * A reading to take.
   *
   * @param readings what is read together
   * @param begin when to begin with it
   * @param due the time it counts for
   * @param state whether it is still to come
   * @param posture how the person is placed for it, where that is said: {@code seated}
   */
  public record Item(
      List<ToRead> readings, Duration begin, Duration due, State state, Optional<String> posture) {
    public Item {
      requireNonNull(begin, "begin");
      requireNonNull(due, "due");
      requireNonNull(posture, "posture");
      requireNonNull(readings, "readings");
      requireNonNull(state, "state");
      readings = List.copyOf(readings);
    }

    /** The names of the readings, as rules call them. */
    public List<String> names() {
      return readings.stream().map(ToRead::name).toList();
    }
  }

  /**
   * One value to be read.
   *
   * @param signal the signal: {@code heart_rate}
   * @param before what it is read for before the test; empty during the test
   * @param type what a reading is: a measure of a kind, or one of some words
   * @param unit the unit it is shown in, for a measure
   * @param scales the rating scales that a rating may be given on; where there are any, one has to
   *     be named
   */
  public record ToRead(
      String signal,
      Optional<Posture> before,
      Type type,
      Optional<Unit> unit,
      List<String> scales) {
    public ToRead {
      requireNonNull(before, "before");
      requireNonNull(scales, "scales");
      requireNonNull(signal, "signal");
      requireNonNull(type, "type");
      requireNonNull(unit, "unit");
      scales = List.copyOf(scales);
    }

    /** As rules call it: {@code heart_rate}, {@code resting.heart_rate}. */
    public String name() {
      return before.map(posture -> posture.word() + "." + signal).orElse(signal);
    }
  }

  /**
   * Something to say or to look for.
   *
   * @param at when
   * @param say the words
   */
  public record Reminder(Duration at, String say) {
    public Reminder {
      requireNonNull(at, "at");
      requireNonNull(say, "say");
    }
  }

  /**
   * Something to be answered before the test.
   *
   * @param name the name to answer it by
   * @param prompt the words to ask it with
   * @param needed whether the test cannot begin without an answer
   * @param type what an answer is: a measure of a kind, yes or no, or one of some words
   * @param unit the unit of a measure, as its range or its options are given
   * @param range the answers that are possible, for a measure that has limits
   * @param options the values of which one has to be chosen; empty where any is possible. Which of
   *     them are open to this person is checked when one is told
   */
  public record Ask(
      String name,
      String prompt,
      boolean needed,
      Type type,
      Optional<Unit> unit,
      Optional<QuantityRange> range,
      List<Quantity> options) {
    public Ask {
      requireNonNull(name, "name");
      requireNonNull(options, "options");
      requireNonNull(prompt, "prompt");
      requireNonNull(range, "range");
      requireNonNull(type, "type");
      requireNonNull(unit, "unit");
      options = List.copyOf(options);
    }
  }

  /**
   * A change of load that needs no decision: a step of a ramp, the next stage of recovery.
   *
   * @param at when
   * @param load what to set then
   */
  public record Change(Duration at, List<Loading> load) {
    public Change {
      requireNonNull(at, "at");
      requireNonNull(load, "load");
      load = List.copyOf(load);
    }
  }

  /** How a reading stands. */
  public enum State {
    /** It is still to come. */
    AHEAD,
    /** It is due now. */
    DUE,
    /** Its time has passed without it. */
    MISSED
  }
}
