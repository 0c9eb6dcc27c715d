package org.gradus.cases;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Instruments;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Person;
import org.gradus.protocol.Posture;
import org.gradus.protocol.Protocol;
import org.gradus.rule.syntax.RuleText;
import org.gradus.session.Loading;
import org.gradus.session.Reading;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;

/** Makes what is told to a session out of the texts of a case. */
final class CaseTeller {

  /** The words for an answer. */
  static final List<String> ANSWERS = List.of("yes", "no", "true", "false");

  private final Protocol protocol;

  CaseTeller(Protocol protocol) {
    this.protocol = protocol;
  }

  /** The person of a case, as far as attributes say. */
  static Person person(Participant participant) {
    Person.Builder person = Person.builder();
    participant
        .facts()
        .forEach(
            (name, text) ->
                Attribute.named(name).ifPresent(attribute -> give(person, attribute, text)));
    return person.build();
  }

  private static void give(Person.Builder person, Attribute attribute, String text) {
    switch (attribute) {
      case AGE -> person.age((int) quantity(text).amount());
      case SEX -> person.sex(text.equals("female") ? Person.Sex.FEMALE : Person.Sex.MALE);
      case MASS -> person.mass(quantity(text));
      case HEIGHT -> person.height(quantity(text));
      case LOWERS_HEART_RATE -> person.lowersHeartRate(isYes(text));
      case CLEARED -> person.cleared(isYes(text));
      case MEASURED_MAX_HEART_RATE -> person.measuredMaxHeartRate(quantity(text));
    }
  }

  /**
   * Everything told of a person before the test; answers to what this protocol does not ask are
   * passed over.
   */
  List<Reading> before(Participant participant) {
    List<Reading> readings = new ArrayList<>();
    participant
        .facts()
        .forEach(
            (name, text) -> {
              if (protocol.instruments().questions().containsKey(name)) {
                readings.add(reading(name, text));
              }
            });
    participant.resting().forEach((name, text) -> baseline(Posture.RESTING, name, text, readings));
    participant.upright().forEach((name, text) -> baseline(Posture.UPRIGHT, name, text, readings));
    return readings;
  }

  private void baseline(Posture posture, String name, String text, List<Reading> readings) {
    if (protocol.instruments().signals().containsKey(name)) {
      readings.add(new Reading.Baseline(posture, reading(name, text)));
    }
  }

  /** Readings by their names. */
  List<Reading> readings(Map<String, String> texts) {
    List<Reading> readings = new ArrayList<>();
    texts.forEach((name, text) -> readings.add(reading(name, text)));
    return readings;
  }

  private Reading reading(String name, String text) {
    Optional<Type> type =
        Optional.ofNullable(protocol.instruments().signals().get(name))
            .map(signal -> signal.type())
            .or(
                () ->
                    Optional.ofNullable(protocol.instruments().questions().get(name))
                        .map(question -> question.type()))
            .or(() -> Attribute.named(name).map(Attribute::type))
            .or(
                () ->
                    name.equals(Instruments.CLEARED_AFTER_STOP)
                        ? Optional.of(Type.CONDITION)
                        : Optional.empty());
    // What is neither yes nor no is told as it stands: the session refuses it.
    if (type.filter(Type.CONDITION::equals).isPresent() && ANSWERS.contains(text)) {
      return new Reading.Answered(name, isYes(text));
    }
    Optional<Quantity> value = parsed(text);
    return value.isEmpty() || type.filter(Type.Choice.class::isInstance).isPresent()
        ? new Reading.Chosen(name, text)
        : new Reading.Measured(name, value.get(), Optional.empty(), scale(name));
  }

  private Optional<String> scale(String signal) {
    return protocol.schedule().lineOf(signal).flatMap(MeasureLine::scale);
  }

  /** Components of a load by their names. */
  static List<Loading> load(Map<String, String> texts) {
    List<Loading> load = new ArrayList<>();
    texts.forEach((name, text) -> load.add(new Loading(name, quantity(text))));
    return load;
  }

  static boolean isYes(String text) {
    return text.equals("yes") || text.equals("true");
  }

  // What is no quantity is told as a bare number of nothing: the session refuses it by name.
  static Quantity quantity(String text) {
    return parsed(text).orElse(Quantity.of(0, Unit.ONE));
  }

  private static Optional<Quantity> parsed(String text) {
    return RuleText.quantity(Span.all("case", text), new Problems());
  }
}
