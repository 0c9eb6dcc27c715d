package org.gradus.words;

import java.util.Locale;

/**
 * What a message says, as a constant that code can name. Each constant has one pattern of {@link
 * java.text.MessageFormat} in each {@linkplain Language#all language}.
 */
public interface MessageKey {

  /** The stable name of this key among those of its kind: {@code "G501"}. */
  String name();

  /**
   * The pattern in a language.
   *
   * @param language one of {@link Language#all}
   */
  String pattern(Locale language);
}
