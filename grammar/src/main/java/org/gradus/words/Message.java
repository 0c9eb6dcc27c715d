package org.gradus.words;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Objects;

/**
 * Something that is said to people: which message, and what it speaks of. Immutable; it prints
 * itself in English.
 *
 * <pre>{@code
 * Message problem = refused.problem();
 * problem.key();                                  // Code.G502
 * problem.arguments();                            // [heart rate, 20 bpm, 30 bpm to 250 bpm]
 * problem.toString();                             // in English
 * Language.of(Locale.GERMAN).say(problem);        // in German
 * }</pre>
 *
 * @param key which message
 * @param arguments what it speaks of: a {@code String} that is in no language or in that of who
 *     wrote it; an {@code Integer} that is counted; something {@link Spoken}, such as a quantity, a
 *     {@link Name}, a {@link FileText} or another message; or a {@code List} of these, which is
 *     joined by commas. A {@link MessageKey} becomes a message without arguments
 */
public record Message(MessageKey key, List<Object> arguments) implements Spoken {

  public Message {
    Objects.requireNonNull(key, "key");
    arguments = arguments.stream().map(Message::checked).toList();
  }

  /** A message about these things. */
  public static Message of(MessageKey key, Object... arguments) {
    requireNonNull(arguments, "arguments");
    return new Message(key, List.of(arguments));
  }

  private static Object checked(Object argument) {
    if (argument instanceof MessageKey key) {
      return of(key);
    } else if (argument instanceof List<?> list) {
      return list.stream().map(Message::checked).toList();
    } else if (argument instanceof String
        || argument instanceof Integer
        || argument instanceof Spoken) {
      return argument;
    }
    throw new IllegalArgumentException(
        "a message cannot speak of a " + argument.getClass().getName());
  }

  @Override
  public String in(Language language) {
    return language.say(this);
  }

  /** The message in English. */
  @Override
  public String toString() {
    return Language.ENGLISH.say(this);
  }
}
