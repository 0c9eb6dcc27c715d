package org.gradus.report;

import java.time.ZonedDateTime;
import java.util.Optional;

/**
 * Who was tested when, where and by whom, in the host's words, as far as it says so.
 *
 * @param identity who was tested
 * @param date when
 * @param begun when by the record, which a date in the host's words replaces
 * @param place where
 * @param tester by whom
 */
record Particulars(
    Optional<String> identity,
    Optional<String> date,
    Optional<ZonedDateTime> begun,
    Optional<String> place,
    Optional<String> tester) {

  /** Nothing is said. */
  static final Particulars NONE =
      new Particulars(
          Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty());

  Particulars identity(String words) {
    return new Particulars(Optional.of(words), date, begun, place, tester);
  }

  Particulars date(String words) {
    return new Particulars(identity, Optional.of(words), begun, place, tester);
  }

  Particulars begun(ZonedDateTime moment) {
    return new Particulars(identity, date, Optional.of(moment), place, tester);
  }

  Particulars place(String words) {
    return new Particulars(identity, date, begun, Optional.of(words), tester);
  }

  Particulars tester(String words) {
    return new Particulars(identity, date, begun, place, Optional.of(words));
  }

  /** When, as the report says it. */
  Optional<String> when(Words words) {
    return date.or(() -> begun.map(words::date));
  }
}
