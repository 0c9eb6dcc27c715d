package org.gradus.examples.workbench;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.gradus.diagnostic.Suggestion;
import org.gradus.protocol.Instruments;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Sign;

/** The names a protocol knows, and what a person in a hurry types for them. */
final class TypedNames {

  private static final int MOST_WORDS = 5;
  private static final int LEAST_LETTERS = 3;
  private static final int STEM = 4;
  private static final Set<String> NEGATIONS = Set.of("no", "not", "none", "without");
  private static final Set<String> SMALL_WORDS =
      Set.of(
          "the", "and", "for", "has", "her", "his", "she", "how", "are", "says", "feels", "very");
  private static final Pattern GLUED = Pattern.compile("([A-Za-z_]+)[:=]?([0-9].*)");

  private final Instruments instruments;
  private final Set<String> names;

  TypedNames(Protocol protocol) {
    this.instruments = protocol.instruments();
    this.names = new TreeSet<>(instruments.signals().keySet());
    names.addAll(instruments.questions().keySet());
    names.addAll(instruments.signs().keySet());
  }

  /**
   * A name with what was typed behind it.
   *
   * @param name as the protocol knows it
   * @param rest what follows; may be empty
   */
  record Found(String name, String rest) {}

  /**
   * A sign that is reported.
   *
   * @param sign which
   * @param grade its grade, for a graded one
   */
  record Report(String sign, OptionalInt grade) {}

  /** Words as a name: {@code "Chest pain"} as {@code "chest_pain"}. */
  static String joined(String words) {
    return words.strip().toLowerCase(Locale.ROOT).replaceAll("[\\s-]+", "_");
  }

  /**
   * The name a line begins with: in words ({@code heart rate 140}), whole, by its first letters or
   * by the initials of its words ({@code hr 140}).
   *
   * @throws IllegalArgumentException when there is none, or more than one; the message says what to
   *     type
   */
  Found find(String text) {
    Matcher glued = GLUED.matcher(text);
    String line = glued.matches() ? glued.group(1) + " " + glued.group(2) : text;
    Optional<Found> exact = exact(line);
    if (exact.isPresent()) {
      return exact.get();
    }
    String first = line.split("\\s+", 2)[0];
    String rest = line.substring(first.length()).strip();
    List<String> fitting = fitting(joined(first));
    if (fitting.size() == 1) {
      return new Found(fitting.get(0), rest);
    } else if (!fitting.isEmpty()) {
      throw new IllegalArgumentException(
          first + " could be " + String.join(", ", fitting) + "; type one of them");
    }
    throw notUnderstood(text);
  }

  /** Says of a line that it is not understood, and what to type instead. */
  IllegalArgumentException notUnderstood(String text) {
    return notUnderstood(text, instead(text));
  }

  /** The same, where it is known what to type instead. */
  static IllegalArgumentException notUnderstood(String text, String instead) {
    return new IllegalArgumentException("not understood: " + text + " (" + instead + ")");
  }

  /**
   * The sign a line reports, if it begins with the name of one.
   *
   * @throws IllegalArgumentException when it begins with the name of a sign and cannot be a report;
   *     the message says what to type
   */
  Optional<Report> report(String text) {
    Optional<Found> found = exact(text).or(() -> shortened(text));
    if (found.isEmpty() || !instruments.signs().containsKey(found.get().name())) {
      return Optional.empty();
    }
    Sign sign = instruments.sign(found.get().name());
    String rest = found.get().rest();
    if (sign.top().isPresent()) {
      if (!rest.matches("[0-9]{1,2}")) {
        throw new IllegalArgumentException(
            sign.name() + " needs its grade, 0 to " + sign.top().getAsInt() + ": " + typed(sign));
      }
      return Optional.of(new Report(sign.name(), OptionalInt.of(Integer.parseInt(rest))));
    } else if (!rest.isEmpty()) {
      throw new IllegalArgumentException(
          "\""
              + rest
              + "\" cannot stand behind "
              + sign.name()
              + "; type "
              + sign.name()
              + " alone to report it, or withdraw "
              + sign.name()
              + ": why, when it is over");
    }
    return Optional.of(new Report(sign.name(), OptionalInt.empty()));
  }

  /** Each sign with its question and what to type for it. */
  List<String> signs() {
    return instruments.signs().values().stream().map(TypedNames::described).toList();
  }

  /** What to type for a sign, with the words to ask or to watch for. */
  static String described(Sign sign) {
    return (sign.asked() ? "ask: " : "watch: ") + sign.prompt() + " -> " + typed(sign);
  }

  private static String typed(Sign sign) {
    return sign.top().isPresent()
        ? sign.name() + " GRADE (0 to " + sign.top().getAsInt() + ")"
        : sign.name();
  }

  // The longest beginning of the line that is a name when its words are joined.
  private Optional<Found> exact(String line) {
    String[] words = line.split("\\s+", -1);
    for (int count = Math.min(MOST_WORDS, words.length); count > 0; count--) {
      String name = joined(String.join(" ", Arrays.asList(words).subList(0, count)));
      if (names.contains(name)) {
        String rest = String.join(" ", Arrays.asList(words).subList(count, words.length));
        return Optional.of(new Found(name, rest));
      }
    }
    return Optional.empty();
  }

  // A single letter is too little to report a sign by.
  private Optional<Found> shortened(String line) {
    String first = line.split("\\s+", 2)[0];
    String typed = joined(first);
    List<String> fitting = fitting(typed);
    boolean clear =
        fitting.size() == 1
            && (typed.length() >= LEAST_LETTERS
                || (typed.length() > 1 && initials(fitting.get(0)).equals(typed)));
    return clear
        ? Optional.of(new Found(fitting.get(0), line.substring(first.length()).strip()))
        : Optional.empty();
  }

  private List<String> fitting(String typed) {
    return names.stream()
        .filter(name -> name.startsWith(typed) || initials(name).equals(typed))
        .toList();
  }

  private static String initials(String name) {
    return Arrays.stream(name.split("_", -1))
        .filter(word -> !word.isEmpty())
        .map(word -> word.substring(0, 1))
        .collect(Collectors.joining());
  }

  // What to type instead: a sign whose name or question has a word of the line, else a near name.
  private String instead(String text) {
    List<String> words = words(text);
    if (words.stream().anyMatch(NEGATIONS::contains)) {
      return "what is not reported counts as absent; withdraw SIGN: why, when one is over";
    }
    List<String> meant = new ArrayList<>();
    for (Sign sign : instruments.signs().values()) {
      List<String> about = words(sign.name().replace('_', ' ') + " " + sign.prompt());
      if (words.stream().anyMatch(word -> about.stream().anyMatch(other -> alike(word, other)))) {
        meant.add(typed(sign) + " to report: " + sign.prompt());
      }
    }
    if (!meant.isEmpty()) {
      return "type " + String.join("; or type ", meant);
    } else if (text.matches("[0-9].*")) {
      return "say what it is, such as heart_rate 112";
    }
    return Suggestion.help(joined(text.split("\\s+", 2)[0]), names, "type ? for what can be typed");
  }

  private static List<String> words(String text) {
    return Arrays.stream(text.toLowerCase(Locale.ROOT).split("[^\\p{L}]+", -1))
        .filter(word -> NEGATIONS.contains(word) || word.length() >= LEAST_LETTERS)
        .filter(word -> !SMALL_WORDS.contains(word))
        .toList();
  }

  private static boolean alike(String word, String other) {
    boolean sameStem =
        word.length() >= STEM
            && other.length() >= STEM
            && word.substring(0, STEM).equals(other.substring(0, STEM));
    return word.equals(other) || sameStem;
  }
}
