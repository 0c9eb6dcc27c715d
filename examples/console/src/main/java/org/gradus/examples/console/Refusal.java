package org.gradus.examples.console;

import org.gradus.diagnostic.GradusException;

/**
 * A request that is answered with an error: its status, and what the person at the page reads, in
 * the language of the page.
 */
final class Refusal extends RuntimeException {

  private static final long serialVersionUID = 1;

  private final int status;
  private final String english;
  private final transient Object[] values;

  Refusal(int status, String english, Object... values) {
    super(PageWords.in("en").say(english, values));
    this.status = status;
    this.english = english;
    this.values = values.clone();
  }

  /** What the engine refused, in words that know the protocol. */
  static Refusal of(GradusException refused, PageWords words) {
    return new Refusal(422, words.say(refused));
  }

  /** The same, said in words that know the protocol. */
  Refusal said(PageWords words) {
    return new Refusal(status, in(words));
  }

  /** What the person reads. */
  String in(PageWords words) {
    return words.say(english, values);
  }

  int status() {
    return status;
  }
}
