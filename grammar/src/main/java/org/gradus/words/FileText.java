package org.gradus.words;

import java.util.Objects;

/**
 * A sentence or a name of a protocol file, as an argument of a message. It is said exactly as the
 * file writes it, or as the words of the protocol translate it; a {@link Name} reads with blanks.
 *
 * @param text what the file writes
 */
public record FileText(String text) implements Spoken {

  public FileText {
    Objects.requireNonNull(text, "text");
  }

  @Override
  public String in(Language language) {
    return language.text(text);
  }

  /** What the file writes. */
  @Override
  public String toString() {
    return text;
  }
}
