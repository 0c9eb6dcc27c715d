package org.gradus.examples.console;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.gradus.diagnostic.GradusException;
import org.gradus.words.Language;
import org.gradus.words.Message;
import org.gradus.words.Spoken;

/**
 * What the console and its page say, in one language. The page's own sentences stand in {@code
 * words.txt}, a line each with a column for every language; what the engine and the protocol say
 * comes from the {@link Language}.
 */
final class PageWords {

  private static final List<String> COLUMNS = List.of("en", "es", "de");

  private final Language language;
  private final Map<String, String> own;

  private PageWords(Language language, Map<String, String> own) {
    this.language = language;
    this.own = own;
  }

  /** The words in a language; what a protocol says comes from the language too. */
  static PageWords in(Language language) {
    return new PageWords(language, column(language.locale().getLanguage()));
  }

  /**
   * The words in the language of a tag such as {@code es}; in English for one that is not there.
   */
  static PageWords in(String tag) {
    return in(Language.of(Locale.forLanguageTag(tag)));
  }

  private static Map<String, String> column(String language) {
    int column = COLUMNS.indexOf(language);
    Map<String, String> words = new LinkedHashMap<>();
    try (InputStream file =
        Objects.requireNonNull(PageWords.class.getResourceAsStream("words.txt"))) {
      String text = new String(file.readAllBytes(), StandardCharsets.UTF_8);
      text.lines()
          .filter(line -> !line.startsWith("#"))
          .map(line -> line.split("\\|", -1))
          .forEach(cells -> words.put(cells[0].strip(), cells[column].strip()));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return words;
  }

  Language language() {
    return language;
  }

  /** The page's own sentences, by the English ones. */
  Map<String, String> own() {
    return own;
  }

  /** A sentence of the console, with what it speaks of filled in. */
  String say(String english, Object... values) {
    String said = own.getOrDefault(english, english);
    for (int i = 0; i < values.length; i++) {
      Object value = values[i] instanceof Spoken spoken ? spoken.in(language) : values[i];
      said = said.replace("{" + i + "}", String.valueOf(value));
    }
    return said;
  }

  /** What the engine says. */
  String say(Message message) {
    return language.say(message);
  }

  /** A name of the file as people read it. */
  String name(String id) {
    return language.name(id);
  }

  /** A sentence or a word of the file. */
  String text(String ofFile) {
    return language.text(ofFile);
  }

  /** Why the engine refused something, and what to do. */
  String say(GradusException refused) {
    String help = say(refused.help());
    return refused.code() + ": " + say(refused.problem()) + (help.isEmpty() ? "" : "; " + help);
  }
}
