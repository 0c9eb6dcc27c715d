package org.gradus.words;

/** Something that a message can speak of and that says itself in a language. Immutable. */
public interface Spoken {

  /** What people read of it in a language. */
  String in(Language language);
}
