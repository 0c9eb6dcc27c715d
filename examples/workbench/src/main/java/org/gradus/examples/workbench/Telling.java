package org.gradus.examples.workbench;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.diagnostic.Suggestion;
import org.gradus.protocol.Instruments;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Question;
import org.gradus.protocol.Signal;
import org.gradus.rule.check.Type;
import org.gradus.rule.syntax.RuleText;
import org.gradus.rule.syntax.RuleText.QuantityRange;
import org.gradus.session.Decision;
import org.gradus.session.Loading;
import org.gradus.session.Phase;
import org.gradus.session.Reading;
import org.gradus.session.Readings;
import org.gradus.session.Session;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** Makes readings, answers and signs of what is typed. */
final class Telling {

  private static final String NOTHING_UNUSUAL = "nothing unusual";
  private static final String RESTING = "resting";
  private static final String UPRIGHT = "upright";
  private static final Set<String> POSTURES = Set.of(RESTING, UPRIGHT);
  private static final Set<String> PRESSURES = Set.of("bp", "pressure");
  private static final int USUAL_COUNT = 15;

  private final Session session;
  private final Protocol protocol;
  private final Instruments instruments;

  Telling(Session session) {
    this.session = session;
    this.protocol = session.protocol();
    this.instruments = protocol.instruments();
  }

  Decision tell(String text, Duration now) {
    if (text.equals(NOTHING_UNUSUAL)) {
      return session.record(now, unusual().toArray(Reading[]::new));
    }
    String[] first = text.split("\\s+", -1);
    Optional<String> sign = sign(first[0]);
    if (sign.isPresent()) {
      return first.length > 1
          ? session.report(now, sign.get(), whole(first[1]))
          : session.report(now, sign.get());
    }
    List<Reading> readings = new ArrayList<>();
    // Said once, it counts for the whole line: resting systolic 120, diastolic 80.
    String posture = "";
    for (String part : text.split(",", -1)) {
      List<String> words = List.of(part.strip().split("\\s+", -1));
      if (POSTURES.contains(words.get(0)) && words.size() > 1) {
        posture = words.get(0);
        words = words.subList(1, words.size());
      }
      readings.add(placed(posture, reading(words), part.strip()));
    }
    return session.record(now, readings.toArray(Reading[]::new));
  }

  /** Tells the load that is really set; a bare figure is in the unit that is shown. */
  Decision load(String text, Duration now) {
    String[] words = text.strip().split("\\s+", 2);
    if (words.length < 2) {
      throw new IllegalArgumentException("say which load is set, and at what: load speed 3.5 mph");
    }
    Optional<Unit> shown =
        session.outcome().load().stream()
            .filter(load -> load.name().equals(words[0]))
            .map(load -> load.value().unit())
            .findFirst();
    return session.loadSet(now, new Loading(words[0], quantity(words[1], shown)));
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

  private Optional<String> sign(String typed) {
    Set<String> signs = instruments.signs().keySet();
    if (signs.contains(typed)) {
      return Optional.of(typed);
    }
    List<String> fitting = fitting(typed);
    return fitting.size() == 1 && signs.contains(fitting.get(0))
        ? Optional.of(fitting.get(0))
        : Optional.empty();
  }

  // Every question that is answered with yes or no, answered with no.
  private List<Reading> unusual() {
    List<Reading> answers = new ArrayList<>();
    for (Question question : instruments.questions().values()) {
      if (question.type().equals(Type.CONDITION)) {
        answers.add(Readings.answer(question.name(), false));
      }
    }
    return answers;
  }

  private Reading reading(List<String> words) {
    String first = words.get(0);
    String last = words.get(words.size() - 1);
    boolean pressure = words.size() == 1 || PRESSURES.contains(first);
    if (pressure && last.matches("[0-9]+/[0-9]+")) {
      int slash = last.indexOf('/');
      return Readings.pressure(whole(last.substring(0, slash)), whole(last.substring(slash + 1)));
    }
    if (first.equals("pulse") && words.size() > 1) {
      int stretch = words.size() > 2 ? whole(words.get(2)) : USUAL_COUNT;
      return Readings.pulse(whole(words.get(1)), Duration.ofSeconds(stretch));
    }
    String name = full(first);
    if (words.size() < 2) {
      throw new IllegalArgumentException(name + " needs its value behind it; type ? for help");
    }
    String value = String.join(" ", words.subList(1, words.size()));
    Question question = instruments.questions().get(name);
    if (question != null) {
      return answer(question, value);
    }
    Signal signal = instruments.signal(name);
    if (signal.type() instanceof Type.Choice) {
      return Readings.chosen(name, value);
    }
    Quantity quantity = quantity(value, signal.range().map(QuantityRange::low).map(Quantity::unit));
    Optional<String> scale = protocol.schedule().lineOf(name).flatMap(MeasureLine::scale);
    return new Reading.Measured(name, quantity, Optional.empty(), scale);
  }

  private Set<String> names() {
    Set<String> names = new TreeSet<>(instruments.signals().keySet());
    names.addAll(instruments.questions().keySet());
    names.addAll(instruments.signs().keySet());
    return names;
  }

  // The first letters will do where only one name has them.
  private String full(String typed) {
    Set<String> names = names();
    if (names.contains(typed)) {
      return typed;
    }
    List<String> fitting = fitting(typed);
    if (fitting.size() == 1) {
      return fitting.get(0);
    }
    String help =
        fitting.isEmpty()
            ? Suggestion.help(typed, names, "type ? for help")
            : "it could be " + String.join(", ", fitting);
    throw new IllegalArgumentException(typed + " is nothing that can be told; " + help);
  }

  // By its first letters, or by the initials of its words: hr for heart_rate.
  private List<String> fitting(String typed) {
    return names().stream()
        .filter(name -> name.startsWith(typed) || initials(name).equals(typed))
        .toList();
  }

  private static String initials(String name) {
    return Arrays.stream(name.split("_", -1))
        .filter(word -> !word.isEmpty())
        .map(word -> word.substring(0, 1))
        .collect(Collectors.joining());
  }

  private static int whole(String text) {
    if (!text.matches("[0-9]{1,4}")) {
      throw new IllegalArgumentException(text + " is not a whole number");
    }
    return Integer.parseInt(text);
  }

  private static Reading answer(Question question, String value) {
    if (question.type().equals(Type.CONDITION)) {
      Map<String, Boolean> known = Map.of("yes", true, "no", false);
      if (!known.containsKey(value)) {
        throw new IllegalArgumentException("answer " + question.name() + " with yes or no");
      }
      return Readings.answer(question.name(), value.equals("yes"));
    } else if (question.type() instanceof Type.Choice) {
      return Readings.chosen(question.name(), value);
    }
    return Readings.answer(
        question.name(),
        quantity(value, question.range().map(QuantityRange::low).map(Quantity::unit)));
  }

  private static Quantity quantity(String text, Optional<Unit> usual) {
    boolean bare = text.matches("-?[0-9]+(\\.[0-9]+)?");
    if (bare && usual.isPresent()) {
      return Quantity.of(Double.parseDouble(text), usual.get());
    }
    Problems problems = new Problems();
    return RuleText.quantity(Span.all("typed", text), problems)
        .orElseThrow(
            () -> new IllegalArgumentException(text + " is no value; write it as in 140 mmHg"));
  }
}
