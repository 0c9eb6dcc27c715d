package org.gradus.protocol;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.gradus.rule.check.Type;
import org.gradus.unit.Kind;

/**
 * What a protocol may know of a person. The list is closed; whatever else is asked is a question.
 */
public enum Attribute {
  /** Completed years. */
  AGE(new Type.Measure(Kind.AGE)),
  /** As the published equations mean it. */
  SEX(new Type.Choice(List.of("female", "male"))),
  /** Body mass. */
  MASS(new Type.Measure(Kind.MASS)),
  /** Body height. */
  HEIGHT(new Type.Measure(Kind.LENGTH)),
  /** Whether the person takes a medicine that slows the heart. */
  LOWERS_HEART_RATE(Type.CONDITION),
  /** Whether the person has been cleared for this test by the tester's own procedure. */
  CLEARED(Type.CONDITION),
  /** A maximal heart rate that was measured. */
  MEASURED_MAX_HEART_RATE(new Type.Measure(Kind.HEART_RATE));

  private final transient Type type;

  Attribute(Type type) {
    this.type = type;
  }

  /** What it is. */
  public Type type() {
    return type;
  }

  /** The word rules and files use. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The attribute of this word, if there is one. */
  public static Optional<Attribute> named(String word) {
    return Arrays.stream(values()).filter(attribute -> attribute.word().equals(word)).findFirst();
  }
}
