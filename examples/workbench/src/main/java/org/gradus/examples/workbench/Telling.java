package org.gradus.examples.workbench;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
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
import org.gradus.session.Reading;
import org.gradus.session.Readings;
import org.gradus.session.Session;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** Makes readings, answers and signs of what is typed. */
final class Telling {

  private static final String NOTHING_UNUSUAL = "nothing unusual";

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
    String[] words = text.split("\\s+", -1);
    if (instruments.signs().containsKey(words[0])) {
      return words.length > 1
          ? session.report(now, words[0], Integer.parseInt(words[1]))
          : session.report(now, words[0]);
    }
    List<Reading> readings = new ArrayList<>();
    for (String part : text.split(",", -1)) {
      readings.add(reading(part.strip().split("\\s+", -1)));
    }
    return session.record(now, readings.toArray(Reading[]::new));
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

  private Reading reading(String[] words) {
    if (words.length < 2) {
      String help = Suggestion.help(words[0], names(), "type ? for help");
      throw new IllegalArgumentException(words[0] + " is nothing that can be told; " + help);
    }
    if (words[0].equals("pulse")) {
      int stretch = words.length > 2 ? Integer.parseInt(words[2]) : 15;
      return Readings.pulse(Integer.parseInt(words[1]), Duration.ofSeconds(stretch));
    } else if (words[0].equals("resting") || words[0].equals("upright")) {
      Reading inner = reading(List.of(words).subList(1, words.length).toArray(String[]::new));
      return words[0].equals("resting") ? Readings.resting(inner) : Readings.upright(inner);
    }
    String name = full(words[0]);
    String value = String.join(" ", List.of(words).subList(1, words.length));
    Question question = instruments.questions().get(name);
    if (question != null) {
      return answer(question, value);
    }
    Signal signal = instruments.signal(name);
    if (signal.type() instanceof Type.Choice) {
      return Readings.chosen(name, value);
    }
    Quantity quantity = quantity(value, signal.range().map(QuantityRange::low).map(Quantity::unit));
    java.util.Optional<String> scale = protocol.schedule().lineOf(name).flatMap(MeasureLine::scale);
    return new Reading.Measured(name, quantity, java.util.Optional.empty(), scale);
  }

  private Set<String> names() {
    Set<String> names = new java.util.TreeSet<>(instruments.signals().keySet());
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
    List<String> fitting = names.stream().filter(name -> name.startsWith(typed)).toList();
    if (fitting.size() == 1) {
      return fitting.get(0);
    }
    String help =
        fitting.isEmpty()
            ? Suggestion.help(typed, names, "type ? for help")
            : "it could be " + String.join(", ", fitting);
    throw new IllegalArgumentException(typed + " is nothing that can be told; " + help);
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

  private static Quantity quantity(String text, java.util.Optional<Unit> usual) {
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
