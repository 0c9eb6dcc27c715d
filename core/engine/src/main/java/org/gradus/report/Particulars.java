package org.gradus.report;

import java.util.Optional;

/**
 * Who was tested when, where and by whom, in the host's words, as far as it says so.
 *
 * @param identity who was tested
 * @param date when
 * @param place where
 * @param tester by whom
 */
record Particulars(
    Optional<String> identity,
    Optional<String> date,
    Optional<String> place,
    Optional<String> tester) {

  /** Nothing is said. */
  static final Particulars NONE =
      new Particulars(Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty());

  Particulars identity(String words) {
    return new Particulars(Optional.of(words), date, place, tester);
  }

  Particulars date(String words) {
    return new Particulars(identity, Optional.of(words), place, tester);
  }

  Particulars place(String words) {
    return new Particulars(identity, date, Optional.of(words), tester);
  }

  Particulars tester(String words) {
    return new Particulars(identity, date, place, Optional.of(words));
  }
}
