package org.gradus.words;

import java.util.Objects;

/**
 * A name that a file gives to something, as an argument of a message: {@code heart_rate}, {@code
 * walk_1}. People read it with blanks, or as the words of a protocol translate it.
 *
 * @param id the name as the file writes it
 */
public record Name(String id) implements Spoken {

  public Name {
    Objects.requireNonNull(id, "id");
  }

  @Override
  public String in(Language language) {
    return language.name(id);
  }

  /** The name with blanks: {@code "heart rate"}. */
  @Override
  public String toString() {
    return in(Language.ENGLISH);
  }
}
