package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.QuantityRange;
import org.gradus.unit.Type;

/**
 * What a protocol may know of a person. The list is closed; whatever else is asked is a question.
 */
public enum Attribute {
  /** Completed years. */
  AGE,
  /** As the published equations mean it. */
  SEX,
  /** Body mass. */
  MASS,
  /** Body height. */
  HEIGHT,
  /** Whether the person takes a medicine that slows the heart. */
  LOWERS_HEART_RATE,
  /** Whether the person has been cleared for this test by the tester's own procedure. */
  CLEARED,
  /** A maximal heart rate that was measured. */
  MEASURED_MAX_HEART_RATE;

  private static final Map<String, Attribute> BY_WORD =
      Arrays.stream(values())
          .collect(Collectors.toUnmodifiableMap(Attribute::word, attribute -> attribute));

  private final String word = name().toLowerCase(Locale.ROOT);

  /** What it is. */
  public Type type() {
    return switch (this) {
      case AGE -> new Type.Measure(Kind.AGE);
      case SEX -> new Type.Choice(List.of("female", "male"));
      case MASS -> new Type.Measure(Kind.MASS);
      case HEIGHT -> new Type.Measure(Kind.LENGTH);
      case LOWERS_HEART_RATE, CLEARED -> Type.CONDITION;
      case MEASURED_MAX_HEART_RATE -> new Type.Measure(Kind.HEART_RATE);
    };
  }

  /** The least any person can have, in the base unit; minus infinity where it is no measure. */
  public double least() {
    return switch (this) {
      case AGE -> 0;
      case MASS -> 2;
      case HEIGHT -> 0.4;
      case MEASURED_MAX_HEART_RATE -> 50;
      case SEX, LOWERS_HEART_RATE, CLEARED -> Double.NEGATIVE_INFINITY;
    };
  }

  /** The most any person can have, in the base unit; infinity where it is no measure. */
  public double most() {
    return switch (this) {
      case AGE -> 130;
      case MASS -> 650;
      case HEIGHT -> 2.8;
      case MEASURED_MAX_HEART_RATE -> 250;
      case SEX, LOWERS_HEART_RATE, CLEARED -> Double.POSITIVE_INFINITY;
    };
  }

  /** What any person can have, for a measure. */
  public Optional<QuantityRange> range() {
    return type() instanceof Type.Measure measure
        ? Optional.of(
            new QuantityRange(
                Quantity.ofBase(least(), measure.kind().base()),
                Quantity.ofBase(most(), measure.kind().base())))
        : Optional.empty();
  }

  /** The word rules and files use. */
  public String word() {
    return word;
  }

  /** The attribute of this word, if there is one. */
  public static Optional<Attribute> named(String word) {
    requireNonNull(word, "word");
    return Optional.ofNullable(BY_WORD.get(word));
  }
}
