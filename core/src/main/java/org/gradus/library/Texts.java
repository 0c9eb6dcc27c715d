package org.gradus.library;

import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Suggestion;
import org.gradus.knowledge.Citation;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.RuleText;
import org.gradus.rule.syntax.RuleText.QuantityRange;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;

/** Reads single texts of one file: times, quantities, words, sources. */
final class Texts {

  private final Problems problems;
  private final Map<String, Citation> sources;

  Texts(Problems problems, Map<String, Citation> sources) {
    this.problems = problems;
    this.sources = Map.copyOf(sources);
  }

  Problems problems() {
    return problems;
  }

  static String string(Optional<Scalar> text) {
    return text.map(Scalar::value).map(String::strip).orElse("");
  }

  Optional<Expression> expression(Scalar text) {
    return RuleText.expression(text.span(), problems);
  }

  Optional<Quantity> quantity(Scalar text) {
    return RuleText.quantity(text.span(), problems);
  }

  Optional<Quantity> quantity(Scalar text, Kind kind) {
    Optional<Quantity> quantity = quantity(text);
    if (quantity.isPresent() && quantity.get().kind() != kind) {
      notA(text, kind.phrase(), "give it in units such as " + kind.base().symbol());
      return Optional.empty();
    }
    return quantity;
  }

  Optional<QuantityRange> range(Scalar text) {
    Optional<QuantityRange> range = RuleText.range(text.span(), problems);
    if (range.isPresent()) {
      QuantityRange ends = range.get();
      boolean rising =
          ends.low().kind() == ends.high().kind() && ends.low().base() <= ends.high().base();
      if (!rising) {
        notA(text, "a range", "give two values of one kind, the lower one first");
        return Optional.empty();
      }
    }
    return range;
  }

  /** A time that is not negative. */
  Optional<Duration> time(Scalar text) {
    Optional<Quantity> time = quantity(text, Kind.TIME);
    if (time.isPresent() && time.get().amount() < 0) {
      notA(text, "a time from zero up", "write it without the sign");
      return Optional.empty();
    }
    return time.map(quantity -> Duration.ofMillis(Math.round(quantity.base() * 1000)));
  }

  /** A time above zero. */
  Optional<Duration> stretch(Scalar text) {
    Optional<Duration> time = time(text);
    if (time.filter(Duration::isZero).isPresent()) {
      notA(text, "a time above zero", "give a longer time");
      return Optional.empty();
    }
    return time;
  }

  OptionalInt whole(Scalar text) {
    String digits = text.value().strip();
    if (digits.matches("[0-9]{1,6}")) {
      return OptionalInt.of(Integer.parseInt(digits));
    }
    notA(text, "a whole number", "write digits only");
    return OptionalInt.empty();
  }

  boolean yes(Optional<Scalar> text, boolean otherwise) {
    if (text.isEmpty()) {
      return otherwise;
    }
    return word(text.get(), List.of("yes", "no"), Function.identity())
        .map("yes"::equals)
        .orElse(otherwise);
  }

  /** One of some words, as files write them. */
  <T> Optional<T> word(Scalar text, List<T> options, Function<T, String> spelling) {
    String word = text.value().strip();
    Optional<T> found =
        options.stream().filter(option -> spelling.apply(option).equals(word)).findFirst();
    if (found.isEmpty()) {
      List<String> words = options.stream().map(spelling).toList();
      notA(
          text,
          "one of " + String.join(", ", words),
          Suggestion.help(word, words, "choose one of them"));
    }
    return found;
  }

  /** One of the constants of an enum, in lower case. */
  <E extends Enum<E>> Optional<E> constant(Scalar text, Class<E> type) {
    return word(
        text,
        Arrays.asList(type.getEnumConstants()),
        value -> value.name().toLowerCase(Locale.ROOT));
  }

  /** A name that rules may use. */
  boolean isName(Scalar text) {
    boolean sound = text.value().matches("[A-Za-z][A-Za-z0-9_]*");
    if (!sound) {
      notA(text, "a name", "use letters, digits and _ only, beginning with a letter");
    }
    return sound;
  }

  /** A source by its key; none when it is not given. */
  Citation source(Optional<Scalar> key) {
    if (key.isEmpty()) {
      return Citation.NONE;
    }
    String name = key.get().value().strip();
    if (name.equals(Citation.PRACTICE.key())) {
      return Citation.PRACTICE;
    }
    Citation source = sources.get(name);
    if (source == null) {
      String keys = sources.keySet().stream().sorted().collect(Collectors.joining(", "));
      problems.add(
          key.get().span(),
          Code.G309,
          "source",
          name,
          Suggestion.help(
              name,
              sources.keySet(),
              "add it under sources, or write practice; there are " + keys));
      return Citation.NONE;
    }
    return source;
  }

  void notA(Scalar text, String wanted, String help) {
    problems.add(text.span(), Code.G305, text.value().strip(), wanted, help);
  }
}
