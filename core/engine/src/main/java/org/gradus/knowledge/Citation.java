package org.gradus.knowledge;

import static java.util.Objects.requireNonNull;

/**
 * Where a figure or a rule comes from.
 *
 * @param key the short key files use for it; {@code "practice"} where no publication gives the
 *     value
 * @param text the citation; says so where a figure was written from memory
 */
public record Citation(String key, String text) {

  /** Common practice: no publication gives the value. */
  public static final Citation PRACTICE =
      new Citation("practice", "common practice, no published source");

  /** No source is named. */
  public static final Citation NONE = new Citation("", "");

  public Citation {
    requireNonNull(key, "key");
    requireNonNull(text, "text");
  }

  /** Whether a source is named. */
  public boolean isNamed() {
    return !key.isEmpty();
  }

  @Override
  public String toString() {
    return text.isEmpty() ? "no source named" : text;
  }
}
