package org.gradus.words;

import static java.util.Objects.requireNonNull;

import java.util.Locale;

/** Ways to put what is said together, the same in every language. */
public enum Joined implements MessageKey {
  /** One thing alone: {@code "110 bpm"}; several, with commas between them. */
  ALONE("{0}"),
  /** Two side by side: {@code "heart rate 110 bpm"}. */
  PAIR("{0} {1}"),
  /** What is said of something: {@code "heart rate: never taken"}. */
  COLON("{0}: {1}"),
  /** One after the other: {@code "no age; no mass"}. */
  SEMICOLON("{0}; {1}"),
  /** With a remark: {@code "76 m/min (only a part of the band)"}. */
  BRACKETS("{0} ({1})"),
  /** A sentence. */
  SENTENCE("{0}.");

  private final String pattern;

  Joined(String pattern) {
    this.pattern = pattern;
  }

  @Override
  public String pattern(Locale language) {
    requireNonNull(language, "language");
    return pattern;
  }
}
