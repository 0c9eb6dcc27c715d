package org.gradus.examples.workbench;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.protocol.Instruments;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Question;
import org.gradus.protocol.Signal;
import org.gradus.rule.syntax.RuleText;
import org.gradus.session.Loading;
import org.gradus.session.Phase;
import org.gradus.session.Reading;
import org.gradus.session.Readings;
import org.gradus.session.Session;
import org.gradus.unit.Quantity;
import org.gradus.unit.QuantityRange;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;

/** Makes readings, answers and loads of what is typed. */
final class TypedReadings {

  private static final String RESTING = "resting";
  private static final String UPRIGHT = "upright";
  private static final Set<String> POSTURES = Set.of(RESTING, UPRIGHT);
  private static final Set<String> PRESSURES = Set.of("bp", "pressure", "cuff", "blood_pressure");
  private static final int USUAL_COUNT = 15;

  private final Session session;
  private final Protocol protocol;
  private final Instruments instruments;
  private final TypedNames vocabulary;

  TypedReadings(Session session) {
    this.session = session;
    this.protocol = session.protocol();
    this.instruments = protocol.instruments();
    this.vocabulary = new TypedNames(protocol);
  }

  /**
   * The readings of a line, parted by commas.
   *
   * @throws IllegalArgumentException when a part is not understood; the message says what to type
   */
  List<Reading> line(String text) {
    List<Reading> readings = new ArrayList<>();
    // Typed once, the posture counts for the whole line: resting systolic 120, diastolic 80.
    String posture = "";
    for (String part : text.split(",", -1)) {
      String words = part.strip();
      String first = words.split("\\s+", 2)[0];
      if (POSTURES.contains(first) && words.length() > first.length()) {
        posture = first;
        words = words.substring(first.length()).strip();
      }
      readings.add(placed(posture, reading(words), part.strip()));
    }
    return readings;
  }

  /**
   * One reading that replaces another: its posture is that of the first.
   *
   * @throws IllegalArgumentException when it is not understood; the message says what to type
   */
  Reading replacement(String text) {
    String first = text.split("\\s+", 2)[0];
    boolean placed = POSTURES.contains(first) && text.length() > first.length();
    return reading(placed ? text.substring(first.length()).strip() : text);
  }

  /** The load that is really set; a bare figure is in the unit that is shown. */
  Loading load(String text) {
    String[] words = text.strip().split("\\s+", 2);
    if (words.length < 2) {
      throw new IllegalArgumentException("say which load is set, and at what: load speed 3.5 mph");
    }
    Optional<Unit> shown =
        session.outcome().load().stream()
            .filter(load -> load.name().equals(words[0]))
            .map(load -> load.value().unit())
            .findFirst();
    return new Loading(words[0], quantity(words[1], shown));
  }

  private Reading placed(String posture, Reading reading, String typed) {
    boolean answer = instruments.questions().containsKey(reading.subject());
    if (answer) {
      return reading;
    }
    return switch (posture) {
      case RESTING -> Readings.resting(reading);
      case UPRIGHT -> Readings.upright(reading);
      default -> {
        if (session.phase() == Phase.BEFORE) {
          throw new IllegalArgumentException(
              "before the test say how the person is placed: resting "
                  + typed
                  + ", or upright "
                  + typed);
        }
        yield reading;
      }
    };
  }

  private Reading reading(String text) {
    String last = text.substring(text.lastIndexOf(' ') + 1);
    if (last.matches("[0-9]+/[0-9]+")) {
      String before = text.substring(0, text.length() - last.length()).strip();
      if (before.isEmpty() || PRESSURES.contains(TypedNames.joined(before))) {
        int slash = last.indexOf('/');
        return Readings.pressure(whole(last.substring(0, slash)), whole(last.substring(slash + 1)));
      }
    }
    String[] words = text.split("\\s+", -1);
    if (PRESSURES.contains(words[0])) {
      throw TypedNames.notUnderstood(text, "write both pressures: " + words[0] + " 140/80");
    }
    if (words[0].equals("pulse") && words.length > 1) {
      int counted = words.length > 2 ? whole(words[2]) : USUAL_COUNT;
      return Readings.pulse(whole(words[1]), Duration.ofSeconds(counted));
    }
    if (words.length == 2 && words[0].equals(Instruments.CLEARED_AFTER_STOP)) {
      return Readings.clearedAfterStop(yes(words[0], words[1]));
    }
    TypedNames.Found found = vocabulary.find(text);
    String name = found.name();
    String value = found.rest();
    if (value.isEmpty()) {
      throw new IllegalArgumentException(name + " needs its value: " + name + " ...");
    }
    Question question = instruments.questions().get(name);
    if (question != null) {
      return answer(question, value);
    }
    Signal signal = instruments.signals().get(name);
    if (signal == null) {
      throw new IllegalArgumentException(
          name + " is a sign: report it on a line of its own, without a comma");
    } else if (signal.type() instanceof Type.Choice) {
      return Readings.chosen(name, value);
    }
    if (value.matches(".* at [0-9]+:[0-9]+")) {
      throw new IllegalArgumentException(
          "not a value: " + value + "; put the time first, as in: 4:05 hr 114");
    } else if (value.matches(".*[0-9].*\\s\\p{L}.*[0-9].*")) {
      throw new IllegalArgumentException(
          "not a value: " + value + "; put a comma between two readings: hr 70, 120/80");
    } else if (value.matches("\\p{L}.*\\s\\p{L}.*")) {
      throw vocabulary.notUnderstood(text);
    }
    Quantity quantity = quantity(value, signal.range().map(QuantityRange::low).map(Quantity::unit));
    Optional<String> scale = protocol.schedule().lineOf(name).flatMap(MeasureLine::scale);
    return new Reading.Measured(name, quantity, Optional.empty(), scale);
  }

  private static int whole(String text) {
    if (!text.matches("[0-9]{1,4}")) {
      throw new IllegalArgumentException(text + " is not a whole number");
    }
    return Integer.parseInt(text);
  }

  private static Reading answer(Question question, String value) {
    if (question.type().equals(Type.CONDITION)) {
      return Readings.answer(question.name(), yes(question.name(), value));
    } else if (question.type() instanceof Type.Choice) {
      return Readings.chosen(question.name(), value);
    }
    return Readings.answer(
        question.name(),
        quantity(value, question.range().map(QuantityRange::low).map(Quantity::unit)));
  }

  private static boolean yes(String name, String value) {
    if (!value.equals("yes") && !value.equals("no")) {
      throw new IllegalArgumentException("answer " + name + " with yes or no");
    }
    return value.equals("yes");
  }

  private static Quantity quantity(String text, Optional<Unit> usual) {
    boolean bare = text.matches("-?[0-9]+(\\.[0-9]+)?");
    if (bare && usual.isPresent()) {
      return Quantity.of(Double.parseDouble(text), usual.get());
    }
    Problems problems = new Problems();
    return RuleText.quantity(Span.all("typed", text), problems)
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "not a value: " + text + "; write a number and its unit, such as 140 mmHg"));
  }
}
