package org.gradus.library;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.diagnostic.Suggestion;
import org.gradus.knowledge.Citation;
import org.gradus.knowledge.Extent;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.RuleText;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.QuantityRange;
import org.gradus.unit.Unit;

/** Reads single texts of one file: times, quantities, words, sources. */
final class ScalarParser {

  private static final List<String> POSTURES = List.of("seated", "standing", "lying");
  private static final Map<String, String> EVERYDAY_POSTURES =
      Map.of(
          "sitting", "seated",
          "upright", "standing",
          "supine", "lying",
          "recumbent", "lying");

  // No test takes longer; a slip of the unit must not make a schedule of millions of readings.
  private static final Duration LONGEST = Duration.ofHours(24);

  // Options are kept as bits of a number.
  private static final int MOST_OPTIONS = 60;

  private static final int LONGEST_NAME = 200;

  private final Problems problems;
  private final Sources sources;
  private final Equipment equipment;

  ScalarParser(Problems problems, Header header, Equipment equipment) {
    this.problems = problems;
    this.equipment = equipment;
    this.sources = new Sources(header, problems);
  }

  Problems problems() {
    return problems;
  }

  /** The loads and ergometers that the files of the library declare. */
  Equipment equipment() {
    return equipment;
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
      notA(text, kind.phrase(), kind.remedy());
      return Optional.empty();
    }
    return quantity;
  }

  /** A unit, or {@code number} for a plain number. */
  Optional<Unit> unit(Scalar text) {
    Optional<Unit> unit =
        text.value().equals("number") ? Optional.of(Unit.ONE) : Unit.named(text.value());
    if (unit.isEmpty()) {
      notA(text, "a unit", "write a unit such as W, km/h, % or rpm, or number for a plain number");
    }
    return unit;
  }

  /** A step from one value to the next. */
  Optional<Quantity> step(Scalar text, Kind kind) {
    return above(text, quantity(text, kind), "a step above zero");
  }

  /** A spread between people or an error: above zero. */
  Optional<Quantity> spread(Scalar text, List<Kind> kinds) {
    Optional<Quantity> spread = quantity(text);
    if (spread.isPresent() && !kinds.contains(spread.get().kind())) {
      notA(text, kinds.get(0).phrase(), kinds.get(0).remedy());
      return Optional.empty();
    }
    return above(text, spread, "a spread above zero");
  }

  private Optional<Quantity> above(Scalar text, Optional<Quantity> quantity, String wanted) {
    if (quantity.isPresent() && quantity.get().amount() <= 0) {
      notA(text, wanted, "check the sign and the digits");
      return Optional.empty();
    }
    return quantity;
  }

  Optional<QuantityRange> range(Scalar text, Kind kind) {
    Optional<QuantityRange> range = range(text);
    if (range.isPresent() && range.get().low().kind() != kind) {
      notA(text, kind.phrase() + " from the lowest to the highest", kind.remedy());
      return Optional.empty();
    }
    return range;
  }

  Optional<QuantityRange> range(Scalar text) {
    Optional<QuantityRange> range = RuleText.range(text.span(), problems);
    if (range.isPresent()) {
      QuantityRange ends = range.get();
      boolean rising =
          ends.low().kind() == ends.high().kind() && ends.low().base() <= ends.high().base();
      if (!rising) {
        notA(text, "a range", rising(ends));
        return Optional.empty();
      }
    }
    return range;
  }

  // The unit is mostly left out at the lower end: 3 to 8 bpm.
  private static String rising(QuantityRange ends) {
    boolean bare = ends.low().unit() == Unit.ONE && ends.high().unit() != Unit.ONE;
    return bare
        ? "give both ends their unit: "
            + Quantity.of(ends.low().amount(), ends.high().unit())
            + " to "
            + ends.high()
        : "give two values of one kind, the lower one first";
  }

  /** A stretch that may be open at one end: a range, {@code below 30 %} or {@code from 90 %}. */
  Optional<Extent> extent(Scalar text, Kind kind) {
    for (String open : List.of("below ", "from ")) {
      if (text.value().startsWith(open)) {
        Span rest =
            new Span(text.span().file(), text.span().start() + open.length(), text.span().end());
        Scalar end = new Scalar(rest, text.value().substring(open.length()), text.plain());
        return quantity(end, kind)
            .map(
                value ->
                    open.startsWith("b")
                        ? new Extent(Optional.empty(), Optional.of(value))
                        : new Extent(Optional.of(value), Optional.empty()));
      }
    }
    return range(text, kind)
        .map(range -> new Extent(Optional.of(range.low()), Optional.of(range.high())));
  }

  /** A time that is not negative. */
  Optional<Duration> time(Scalar text) {
    Optional<Quantity> time = quantity(text, Kind.TIME);
    if (time.isPresent() && time.get().amount() < 0) {
      notA(text, "a time from zero up", "write it without the sign");
      return Optional.empty();
    }
    Optional<Duration> duration =
        time.map(quantity -> Duration.ofMillis(Math.round(quantity.base() * 1000)));
    if (duration.filter(given -> given.compareTo(LONGEST) > 0).isPresent()) {
      notA(text, "a time of a test", "a test lasts a day at most; check the unit");
      return Optional.empty();
    }
    return duration;
  }

  /** A time of a second or more: nobody reads or does anything faster. */
  Optional<Duration> stretch(Scalar text) {
    Optional<Duration> time = time(text);
    if (time.filter(given -> given.compareTo(Duration.ofSeconds(1)) < 0).isPresent()) {
      notA(text, "a time of a second or more", "give a longer time");
      return Optional.empty();
    }
    return time;
  }

  boolean yes(Optional<Scalar> text, boolean otherwise) {
    if (text.isEmpty()) {
      return otherwise;
    }
    return word(text.get(), List.of("yes", "no", "true", "false"), Function.identity())
        .map(word -> word.equals("yes") || word.equals("true"))
        .orElse(otherwise);
  }

  /** How a person is placed, where that is said. */
  Optional<String> posture(Keys keys) {
    return keys.text("posture").flatMap(this::posture);
  }

  private Optional<String> posture(Scalar text) {
    String meant = EVERYDAY_POSTURES.get(text.value().strip());
    if (meant != null) {
      notA(text, "one of " + String.join(", ", POSTURES), "write " + meant);
      return Optional.empty();
    }
    return word(text, POSTURES, Function.identity());
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

  /** The words for all kinds of values. */
  static List<String> kinds() {
    return new ArrayList<>(Arrays.stream(Kind.values()).map(Kind::id).toList());
  }

  /** One of the constants of an enum, in lower case. */
  <E extends Enum<E>> Optional<E> constant(Scalar text, Class<E> type) {
    return word(
        text,
        Arrays.asList(type.getEnumConstants()),
        value -> value.name().toLowerCase(Locale.ROOT));
  }

  /** A name that rules may use: one word, and none that the language keeps for itself. */
  boolean isName(Scalar text) {
    boolean word = matches(text, "[A-Za-z][A-Za-z0-9_]*");
    if (!word) {
      notA(text, "a name", "use letters, digits and _ only, beginning with a letter");
      return false;
    }
    boolean free =
        RuleText.expression(text.span(), new Problems())
            .filter(Expression.Reference.class::isInstance)
            .isPresent();
    if (!free) {
      notA(text, "a name", "this word has a meaning of its own in rules; choose another");
    }
    return free;
  }

  /**
   * Whether a name or an id has its form. A long one has not: nobody could read it, and the
   * matching of repeated groups goes as deep as the text is long.
   */
  static boolean matches(Scalar text, String form) {
    return text.value().length() <= LONGEST_NAME && text.value().matches(form);
  }

  /** The id of a thing that files mention and rules do not: words joined by -. */
  boolean isId(Scalar text) {
    boolean sound = matches(text, "[a-z0-9]+([-.][a-z0-9]+)*");
    if (!sound) {
      notA(text, "an id", "use lower-case words joined by -, as in leg-cycle");
    }
    return sound;
  }

  /** The id of a rule, which no rule can mention. */
  boolean isRuleId(Scalar text) {
    boolean sound = matches(text, "[A-Za-z0-9]+([-_.][A-Za-z0-9]+)*");
    if (!sound) {
      notA(text, "an id", "use letters and digits, joined by - or _");
    }
    return sound;
  }

  /** The words of a choice: names that differ from each other. */
  Optional<List<String>> options(List<Scalar> texts) {
    if (texts.size() > MOST_OPTIONS) {
      notA(texts.get(MOST_OPTIONS), "one of so few words that a person can choose", "offer fewer");
      return Optional.empty();
    }
    List<String> words = new ArrayList<>();
    boolean sound = true;
    for (Scalar text : texts) {
      sound &= isName(text);
      if (words.contains(text.value())) {
        problems.add(text.span(), Code.G306, text.value());
        sound = false;
      }
      words.add(text.value());
    }
    return sound ? Optional.of(words) : Optional.empty();
  }

  /** A source by its key; none when it is not given. */
  Citation source(Optional<Scalar> key) {
    return sources.of(key);
  }

  /** A source with what the file remarks on it. */
  Citation source(Keys keys) {
    return sources.of(keys);
  }

  /** As {@link #source(Keys)}, where a figure may not stand without one. */
  Citation neededSource(Keys keys) {
    return sources.needed(keys);
  }

  void notA(Scalar text, String wanted, String help) {
    problems.add(text.span(), Code.G305, text.value().strip(), wanted, help);
  }
}
