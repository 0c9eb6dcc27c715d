package org.gradus.words;

import static java.util.Objects.requireNonNull;

import java.text.MessageFormat;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;

/**
 * A language that messages are said in, with the words of protocol files as far as they are
 * translated into it. Immutable.
 *
 * <pre>{@code
 * Language spanish = library.language("graded-walk-standard", Locale.forLanguageTag("es"));
 * spanish.say(refused.problem());
 * spanish.text(ask.prompt());      // the question in Spanish, or as the file asks it
 * spanish.name("heart_rate");      // "frecuencia cardíaca"
 * }</pre>
 *
 * <p>Figures stay as they were written: a decimal point is a point in every language, as it is
 * where they are entered, and units keep their symbols. Only units that are words are translated.
 */
public final class Language {

  private static final Locale SPANISH = new Locale("es");

  private static final List<Locale> ALL = List.of(Locale.ENGLISH, SPANISH, Locale.GERMAN);

  /** English, with the words of every file as they are. */
  public static final Language ENGLISH = new Language(Locale.ENGLISH, Map.of(), Map.of());

  private final Locale locale;
  private final Map<String, String> names;
  private final Map<String, String> texts;

  private Language(Locale locale, Map<String, String> names, Map<String, String> texts) {
    this.locale = locale;
    this.names = Map.copyOf(names);
    this.texts = Map.copyOf(texts);
  }

  /** The languages that messages can be said in. */
  public static List<Locale> all() {
    return ALL;
  }

  /**
   * The language of a locale, whatever its country is; English where its language is none of {@link
   * #all}.
   */
  public static Language of(Locale locale) {
    String language = Objects.requireNonNull(locale, "locale").getLanguage();
    return ALL.stream()
        .filter(one -> one.getLanguage().equals(language))
        .findFirst()
        .map(one -> new Language(one, Map.of(), Map.of()))
        .orElse(ENGLISH);
  }

  /**
   * This language with words for what files say, besides those it has.
   *
   * @param moreNames a name of a file, such as {@code heart_rate}, to what people read
   * @param moreTexts a sentence of a file to what people read
   */
  public Language with(Map<String, String> moreNames, Map<String, String> moreTexts) {
    requireNonNull(moreNames, "moreNames");
    requireNonNull(moreTexts, "moreTexts");
    return new Language(locale, joined(names, moreNames), joined(texts, moreTexts));
  }

  private static Map<String, String> joined(Map<String, String> some, Map<String, String> more) {
    Map<String, String> all = new java.util.HashMap<>(some);
    all.putAll(more);
    return all;
  }

  /** Its locale, without a country: one of {@link #all}. */
  public Locale locale() {
    return locale;
  }

  /** A message in this language. What its pattern speaks of and it does not have is left out. */
  public String say(Message message) {
    MessageFormat pattern = new MessageFormat(message.key().pattern(locale), locale);
    List<Object> arguments = message.arguments();
    int places = Math.max(arguments.size(), pattern.getFormatsByArgumentIndex().length);
    Object[] spoken = new Object[places];
    for (int i = 0; i < places; i++) {
      spoken[i] = i < arguments.size() ? spoken(arguments.get(i)) : "";
    }
    return pattern.format(spoken);
  }

  /** A message without arguments in this language. */
  public String say(MessageKey key) {
    return say(Message.of(key));
  }

  /** A name of a file as people read it: as it is translated, or with blanks in it. */
  public String name(String id) {
    requireNonNull(id, "id");
    String translated = names.get(id);
    if (translated != null) {
      return translated;
    }
    int dot = id.indexOf('.');
    return dot < 0
        ? id.replace('_', ' ')
        : name(id.substring(0, dot)) + " " + name(id.substring(dot + 1));
  }

  /** A sentence or a name of a file as it is translated, or exactly as the file writes it. */
  public String text(String ofFile) {
    requireNonNull(ofFile, "ofFile");
    return texts.getOrDefault(ofFile, names.getOrDefault(ofFile, ofFile));
  }

  // What is counted stays a number, so that a pattern can tell one from many.
  private Object spoken(Object argument) {
    if (argument instanceof Spoken spoken) {
      return spoken.in(this);
    } else if (argument instanceof List<?> list) {
      return list.stream()
          .map(this::spoken)
          .map(Object::toString)
          .collect(Collectors.joining(", "));
    }
    return argument;
  }

  /** The language by its own name: {@code "español"}. */
  @Override
  public String toString() {
    return locale.getDisplayLanguage(locale);
  }
}
