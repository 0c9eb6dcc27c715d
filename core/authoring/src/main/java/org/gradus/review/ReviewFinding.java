package org.gradus.review;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.gradus.diagnostic.Diagnostic.Label;
import org.gradus.diagnostic.Renderer;
import org.gradus.diagnostic.Span;

/**
 * One thing a review found.
 *
 * @param check what was looked for
 * @param about what it is about: the id of a rule or stage, the name of a setting or signal
 * @param where where that stands
 * @param message what was found, in one sentence
 * @param example readings or figures that show it, or empty
 * @param points on how many points it was looked at, where it was sampled; else 0
 */
public record ReviewFinding(
    Check check, String about, Span where, String message, String example, int points) {

  /** The gravest first, then by file and place. */
  static final Comparator<ReviewFinding> BY_SEVERITY =
      Comparator.<ReviewFinding, Severity>comparing(finding -> finding.check().severity())
          .thenComparing(finding -> finding.where().file().name())
          .thenComparing(finding -> finding.where().start())
          .thenComparing(ReviewFinding::check)
          .thenComparing(ReviewFinding::about);

  public ReviewFinding {
    requireNonNull(about, "about");
    requireNonNull(check, "check");
    requireNonNull(example, "example");
    requireNonNull(message, "message");
    requireNonNull(where, "where");
  }

  /** A finding that rests on no sample. */
  static ReviewFinding of(Check check, String about, Span where, String message, String example) {
    return new ReviewFinding(check, about, where, message, example, 0);
  }

  /** The finding as it is shown to a person, with the line it speaks of. */
  @Override
  public String toString() {
    List<String> notes = new ArrayList<>();
    if (!example.isEmpty()) {
      notes.add("example: " + example);
    }
    if (points > 0) {
      notes.add("checked on " + points + " points");
    }
    notes.add("help: " + check.help());
    return Renderer.render(
        check.severity().word() + "[" + check.code() + "]",
        List.of(new Label(where, "")),
        message,
        notes);
  }
}
