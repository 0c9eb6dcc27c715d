package org.gradus.rule.conformance;

import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * A question put to the language, with the answer that is expected.
 *
 * @param group the topic
 * @param id what the case is called in its group
 * @param ask how the text is to be read
 * @param text the text
 * @param readings what is known, or why it is not; each of these must be asked for
 * @param usual what is known beside it, of which only what is asked for counts
 * @param define definitions the text may use
 * @param expected the answer
 * @param source where a published answer comes from; empty where it was worked by hand
 */
record Case(
    String group,
    String id,
    Ask ask,
    String text,
    Map<String, String> readings,
    Map<String, String> usual,
    Map<String, Object> define,
    Expected expected,
    String source) {

  /** How a text is to be read. */
  enum Ask {
    VALUE,
    CONDITION,
    RULE,
    QUANTITY,
    RANGE,
    SELECTION,
    CHOICE_LINE
  }

  /**
   * An answer.
   *
   * @param is a quantity, or yes or no
   * @param within how far a quantity may be from it
   * @param unknown for an unknown answer the reasons by subject
   * @param errors the errors, each with its place
   * @param does what a rule recommends, or how another text is understood, in plain words
   */
  record Expected(
      Optional<String> is,
      Optional<String> within,
      Map<String, List<String>> unknown,
      List<String> errors,
      Optional<String> does) {}

  /** Whether the text does not even parse. */
  boolean isUnreadable() {
    return expected.errors().stream().anyMatch(error -> error.startsWith("G1"))
        || expected.errors().stream().anyMatch(error -> error.startsWith("G202"));
  }

  @Override
  public String toString() {
    return group + ": " + id + ": " + (text.length() > 100 ? text.substring(0, 100) : text);
  }
}
