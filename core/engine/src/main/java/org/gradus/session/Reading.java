package org.gradus.session;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.gradus.protocol.Posture;
import org.gradus.unit.Quantity;
import org.gradus.words.FileText;
import org.gradus.words.Joined;
import org.gradus.words.Message;

/** Something the tester has read, heard or chosen. {@link Readings} has short ways to write one. */
public sealed interface Reading {

  /** The single readings it is made of. */
  default List<Reading> parts() {
    return List.of(this);
  }

  /** The signal or question it is about. */
  String subject();

  /** What was read, heard or chosen, to be said in any language. */
  default Message message() {
    return match(
        measured -> Message.of(Joined.ALONE, measured.value()),
        pressure -> Message.of(Joined.ALONE, pressure.toString()),
        chosen -> Message.of(Joined.ALONE, new FileText(chosen.word())),
        answered -> Message.of(answered.yes() ? SessionMessage.YES : SessionMessage.NO),
        baseline -> baseline.reading().message());
  }

  /**
   * What comes of it, by which of them it is.
   *
   * @param <R> what comes of it
   */
  <R> R match(
      Function<Measured, ? extends R> measured,
      Function<Pressure, ? extends R> pressure,
      Function<Chosen, ? extends R> chosen,
      Function<Answered, ? extends R> answered,
      Function<Baseline, ? extends R> baseline);

  /**
   * A measured value.
   *
   * @param subject the signal: {@code heart_rate}
   * @param value what was read
   * @param step the step to which it could be read, where that is not the usual one of the signal
   * @param scale the rating scale, for ratings
   */
  record Measured(String subject, Quantity value, Optional<Quantity> step, Optional<String> scale)
      implements Reading {
    public Measured {
      requireNonNull(scale, "scale");
      requireNonNull(step, "step");
      requireNonNull(subject, "subject");
      requireNonNull(value, "value");
    }

    @Override
    public <R> R match(
        Function<Measured, ? extends R> measured,
        Function<Pressure, ? extends R> pressure,
        Function<Chosen, ? extends R> chosen,
        Function<Answered, ? extends R> answered,
        Function<Baseline, ? extends R> baseline) {
      return measured.apply(this);
    }

    @Override
    public String toString() {
      return value.toString();
    }
  }

  /**
   * A cuff reading.
   *
   * @param systolic the upper value
   * @param diastolic the lower value
   */
  record Pressure(Measured systolic, Measured diastolic) implements Reading {
    public Pressure {
      requireNonNull(diastolic, "diastolic");
      requireNonNull(systolic, "systolic");
    }

    @Override
    public <R> R match(
        Function<Measured, ? extends R> measured,
        Function<Pressure, ? extends R> pressure,
        Function<Chosen, ? extends R> chosen,
        Function<Answered, ? extends R> answered,
        Function<Baseline, ? extends R> baseline) {
      return pressure.apply(this);
    }

    @Override
    public List<Reading> parts() {
      return List.of(systolic, diastolic);
    }

    @Override
    public String subject() {
      return systolic.subject();
    }
  }

  /**
   * One of the words a signal or question offers.
   *
   * @param subject the signal or question
   * @param word the word
   */
  record Chosen(String subject, String word) implements Reading {
    public Chosen {
      requireNonNull(subject, "subject");
      requireNonNull(word, "word");
    }

    @Override
    public <R> R match(
        Function<Measured, ? extends R> measured,
        Function<Pressure, ? extends R> pressure,
        Function<Chosen, ? extends R> chosen,
        Function<Answered, ? extends R> answered,
        Function<Baseline, ? extends R> baseline) {
      return chosen.apply(this);
    }

    @Override
    public String toString() {
      return word;
    }
  }

  /**
   * An answer to a question that is answered with yes or no.
   *
   * @param subject the question
   * @param yes the answer
   */
  record Answered(String subject, boolean yes) implements Reading {
    public Answered {
      requireNonNull(subject, "subject");
    }

    @Override
    public <R> R match(
        Function<Measured, ? extends R> measured,
        Function<Pressure, ? extends R> pressure,
        Function<Chosen, ? extends R> chosen,
        Function<Answered, ? extends R> answered,
        Function<Baseline, ? extends R> baseline) {
      return answered.apply(this);
    }

    @Override
    public String toString() {
      return yes ? "yes" : "no";
    }
  }

  /**
   * A reading taken before the test.
   *
   * @param posture how the person was placed
   * @param reading what was read
   */
  record Baseline(Posture posture, Reading reading) implements Reading {
    public Baseline {
      requireNonNull(posture, "posture");
      requireNonNull(reading, "reading");
    }

    @Override
    public <R> R match(
        Function<Measured, ? extends R> measured,
        Function<Pressure, ? extends R> pressure,
        Function<Chosen, ? extends R> chosen,
        Function<Answered, ? extends R> answered,
        Function<Baseline, ? extends R> baseline) {
      return baseline.apply(this);
    }

    @Override
    public List<Reading> parts() {
      return reading.parts().stream().<Reading>map(part -> new Baseline(posture, part)).toList();
    }

    @Override
    public String subject() {
      return reading.subject();
    }

    @Override
    public String toString() {
      return reading.toString();
    }
  }
}
