package org.gradus.rule.answer;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Objects;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * A text with its numbers filled in: every name is followed by its value in square brackets.
 * Written when it is asked for, since most decisions of a test are never read out.
 */
public final class Filled {

  private final Object lock;
  private @Nullable Supplier<Written> writing;
  private @Nullable Written written;

  private Filled(Object lock, Supplier<Written> writing) {
    this.lock = lock;
    this.writing = writing;
  }

  /**
   * A text that is written when it is first asked for.
   *
   * @param lock what nobody else may use while it is written
   * @param writing writes it
   */
  public static Filled later(Object lock, Supplier<Filled> writing) {
    requireNonNull(lock, "lock");
    requireNonNull(writing, "writing");
    return new Filled(lock, () -> writing.get().written());
  }

  /** A text that is written already. */
  public static Filled of(String text, List<Definition> definitions) {
    requireNonNull(definitions, "definitions");
    requireNonNull(text, "text");
    return new Filled(new Object(), () -> new Written(text, definitions));
  }

  private record Written(String text, List<Definition> definitions) {
    Written {
      definitions = List.copyOf(definitions);
    }
  }

  /**
   * A definition that was used.
   *
   * @param name its name
   * @param value its value here
   * @param text how it came about: {@code abs(change(heart_rate, 1 min) [6 bpm]) <= steady_band [5
   *     bpm]}
   */
  public record Definition(String name, String value, String text) {
    public Definition {
      requireNonNull(name, "name");
      requireNonNull(text, "text");
      requireNonNull(value, "value");
    }

    @Override
    public String toString() {
      return name + " [" + value + "] is " + text;
    }
  }

  private Written written() {
    synchronized (lock) {
      if (written == null) {
        written = Objects.requireNonNull(writing).get();
        writing = null;
      }
      return written;
    }
  }

  /** For example {@code not steady [no]}. */
  public String text() {
    return written().text();
  }

  /** The definitions it uses, each with its own text filled in. */
  public List<Definition> definitions() {
    return written().definitions();
  }

  /** The same text with the same definitions. */
  @Override
  public boolean equals(@Nullable Object other) {
    return other instanceof Filled filled && written().equals(filled.written());
  }

  @Override
  public int hashCode() {
    return written().hashCode();
  }

  /** Everything in one line. */
  @Override
  public String toString() {
    return Stream.concat(Stream.of(text()), definitions().stream().map(Definition::toString))
        .filter(part -> !part.isEmpty())
        .collect(Collectors.joining("; "));
  }
}
