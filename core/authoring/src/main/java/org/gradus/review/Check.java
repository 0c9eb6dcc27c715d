package org.gradus.review;

import static java.util.Objects.requireNonNull;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** What a review looks for. The code of a check never changes its meaning; files accept by it. */
public enum Check {
  /** A rule at a stage's end that those before it never let come to word. */
  SHADOWED_RULE(Severity.FAULT, "move it up, narrow the rules before it, or take it out"),
  /** Two rules at a stage's end that hold together and say different things. */
  OVERLAPPING_RULES(Severity.NOTE, "the first one wins; make the conditions exclude each other"),
  /** A rule that held nowhere. */
  NEVER_HOLDS(Severity.FAULT, "check its limits and how they combine"),
  /** A signal that is used where it is never due. */
  UNMEASURED_SIGNAL(Severity.DANGER, "let a line of measure read it in time"),
  /** A band that a count or a cuff cannot resolve. */
  NARROW_BAND(Severity.FAULT, "count for longer, or widen the band"),
  /** A fixed limit on the heart rate above the ceiling of some age. */
  FIXED_LIMIT(Severity.DANGER, "write lesser(limit, ceiling less some beats)"),
  /** A figure outside what is usual. */
  UNUSUAL_FIGURE(Severity.FAULT, "check the digits and the unit"),
  /** And beside or without brackets. */
  MIXED_AND_OR(Severity.NOTE, "put brackets around what belongs together"),
  /** Classes with a gap between them. */
  CLASS_GAP(Severity.FAULT, "let one class begin where the one before ends"),
  /** A stage that costs no more oxygen than the one before. */
  UPTAKE_NOT_RISING(Severity.FAULT, "check the loads and the order of the stages"),
  /** A figure without a source. */
  NO_SOURCE(Severity.NOTE, "name a key of sources, or practice where nobody publishes it"),
  /** Something that keeps people safe is not in the file. */
  MISSING_SAFETY_RULE(Severity.DANGER, "include a rule set that has it, or write the rule"),
  /** An included part that the protocol's own replaces. */
  REPLACED_PART(Severity.NOTE, "say why the included one does not do"),
  /** An included rule that is left out. */
  DROPPED_RULE(Severity.NOTE, "say why it is left out"),
  /** A test that can be longer or shorter than is usual. */
  TEST_LENGTH(Severity.NOTE, "look at the number and length of stages and holds"),
  /** Something is accepted that was not found. */
  IDLE_ACCEPTANCE(Severity.NOTE, "take it out of accept, or correct what it names");

  private final Severity severity;
  private final String help;

  Check(Severity severity, String help) {
    this.severity = severity;
    this.help = help;
  }

  /** The word for it in files and reports: {@code narrow-band}. */
  public String code() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** How much it matters. */
  public Severity severity() {
    return severity;
  }

  /** What to do about it. */
  public String help() {
    return help;
  }

  /** The check of a code, if there is one. */
  public static Optional<Check> named(String code) {
    requireNonNull(code, "code");
    return Arrays.stream(values()).filter(check -> check.code().equals(code)).findFirst();
  }
}
