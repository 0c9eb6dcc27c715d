package org.gradus.examples.console;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.protocol.Instruments;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Question;
import org.gradus.protocol.Signal;
import org.gradus.session.Reading;
import org.gradus.session.Readings;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;
import org.gradus.words.Name;

/** Readings and answers out of what was entered on a page. */
final class Typed {

  /** What stands before the name of a signal or question in a form. */
  static final String VALUE = "value.";

  private final Protocol protocol;
  private final Instruments instruments;

  Typed(Protocol protocol) {
    this.protocol = protocol;
    this.instruments = protocol.instruments();
  }

  /**
   * The readings of a form: {@code value.NAME} for each, {@code beats} and {@code over} for a
   * counted pulse, {@code posture} for one that was taken before the test.
   */
  Reading[] readings(FormFields form) {
    List<Reading> readings = new ArrayList<>();
    if (form.has("beats")) {
      readings.add(Readings.pulse(form.whole("beats"), Duration.ofMillis(millis(form))));
    }
    for (Map.Entry<String, String> value : form.under(VALUE).entrySet()) {
      readings.add(reading(value.getKey(), value.getValue()));
    }
    if (readings.isEmpty()) {
      throw new Refusal(422, "Enter a value first.");
    }
    Optional<String> posture = form.maybe("posture");
    return readings.stream()
        .map(reading -> posture.map(how -> placed(how, reading)).orElse(reading))
        .toArray(Reading[]::new);
  }

  private static long millis(FormFields form) {
    long millis = Math.round(form.number("over") * 1000);
    if (millis <= 0) {
      throw new Refusal(422, "A pulse is counted for a time above zero.");
    }
    return millis;
  }

  private static Reading placed(String posture, Reading reading) {
    return switch (posture) {
      case "resting" -> Readings.resting(reading);
      case "upright" -> Readings.upright(reading);
      default -> throw new Refusal(422, "No posture is called {0}.", posture);
    };
  }

  private Reading reading(String name, String value) {
    if (name.equals(Instruments.CLEARED_AFTER_STOP)) {
      return Readings.clearedAfterStop(value.equals("yes"));
    }
    Question question = instruments.questions().get(name);
    if (question != null) {
      return answer(question, value);
    }
    Signal signal = instruments.signals().get(name);
    if (signal == null) {
      throw new Refusal(422, "This protocol reads nothing called {0}.", name);
    } else if (signal.type() instanceof Type.Choice) {
      return Readings.chosen(name, value);
    }
    return new Reading.Measured(
        name,
        quantity(name, value, signal.unit()),
        Optional.empty(),
        protocol.schedule().lineOf(name).flatMap(MeasureLine::scale));
  }

  private static Reading answer(Question question, String value) {
    if (question.type().equals(Type.CONDITION)) {
      return Readings.answer(question.name(), value.equals("yes"));
    } else if (question.type() instanceof Type.Choice) {
      return Readings.chosen(question.name(), value);
    }
    return Readings.answer(question.name(), quantity(question.name(), value, unit(question)));
  }

  /** The unit in which a question is answered. */
  static Unit unit(Question question) {
    return question
        .range()
        .map(range -> range.low().unit())
        .or(() -> question.options().stream().map(option -> option.value().unit()).findFirst())
        .orElseGet(() -> ((Type.Measure) question.type()).kind().base());
  }

  /** A number in a unit. */
  static Quantity quantity(String name, String value, Unit unit) {
    String text = value.replace(',', '.');
    if (!text.matches("-?[0-9]{1,6}(\\.[0-9]{1,6})?")) {
      throw new Refusal(422, "{0} needs a number, not {1}.", new Name(name), value);
    }
    return Quantity.of(Double.parseDouble(text), unit);
  }
}
