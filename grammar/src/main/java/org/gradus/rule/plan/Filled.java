package org.gradus.rule.plan;

import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * A text with its numbers filled in: every name is followed by its value in square brackets.
 *
 * @param text for example {@code not steady [no]}
 * @param definitions the definitions it uses, each with its own text filled in
 */
public record Filled(String text, List<Definition> definitions) {

  /**
   * A definition that was used.
   *
   * @param name its name
   * @param value its value here
   * @param text how it came about: {@code abs(change(heart_rate, 1 min) [6 bpm]) <= steady_band [5
   *     bpm]}
   */
  public record Definition(String name, String value, String text) {
    @Override
    public String toString() {
      return name + " [" + value + "] is " + text;
    }
  }

  public Filled {
    definitions = List.copyOf(definitions);
  }

  /** Everything in one line. */
  @Override
  public String toString() {
    return Stream.concat(Stream.of(text), definitions.stream().map(Definition::toString))
        .filter(part -> !part.isEmpty())
        .collect(Collectors.joining("; "));
  }
}
