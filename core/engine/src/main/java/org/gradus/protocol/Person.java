package org.gradus.protocol;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.knowledge.Given;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.jspecify.annotations.Nullable;

/**
 * The person to be tested, as far as rules and formulas need to know. What is not given is not
 * known; a protocol says what it needs. No name, no date of birth: identity is the host's business.
 *
 * <pre>{@code
 * Person person = Person.builder().age(46).sex(Sex.FEMALE).mass(kg(71)).cleared(true).build();
 * }</pre>
 */
public final class Person {

  /** Sex, in the sense of the published equations. */
  public enum Sex {
    /** Female. */
    FEMALE,
    /** Male. */
    MALE
  }

  private final Map<Attribute, Quantity> values;

  private Person(Map<Attribute, Quantity> values) {
    this.values = Collections.unmodifiableMap(new EnumMap<>(values));
  }

  /** A person of whom nothing is known yet. */
  public static Builder builder() {
    return new Builder();
  }

  /**
   * An attribute; a condition is 1 or 0, a choice the index of its option.
   *
   * @return the value, or empty when it was not given
   * @throws ReadingRefused when it is null
   */
  public Optional<Quantity> value(Attribute attribute) {
    refuseNull("an attribute", attribute, "name one of Attribute");
    return Optional.ofNullable(values.get(attribute));
  }

  /** All that is known, by the names that formulas use. */
  public Given given() {
    Given given = Given.NOTHING;
    for (Map.Entry<Attribute, Quantity> value : values.entrySet()) {
      given = given.with(value.getKey().word(), value.getValue());
    }
    return given;
  }

  // A host may hand over what it does not know; counting that as anything would be a guess.
  private static void refuseNull(String what, @Nullable Object value, String help) {
    if (value == null) {
      throw new ReadingRefused(Code.G508, what, "null", help);
    }
  }

  /** The same attributes with the same values. */
  @Override
  public boolean equals(Object other) {
    return other instanceof Person person && values.equals(person.values);
  }

  @Override
  public int hashCode() {
    return values.hashCode();
  }

  /** What is known, as rules call it; a condition is 1 or 0, a choice the index of its word. */
  @Override
  public String toString() {
    return values.entrySet().stream()
        .map(entry -> entry.getKey().word() + " " + entry.getValue())
        .collect(Collectors.joining(", "));
  }

  /** Collects what is known of a person. */
  public static final class Builder {

    private static final String UNKNOWN = "leave it out when it is not known";

    private final Map<Attribute, Quantity> values = new EnumMap<>(Attribute.class);

    private Builder() {}

    /**
     * Completed years.
     *
     * @throws ReadingRefused unless it is from 0 to 130
     */
    public Builder age(int years) {
      return measure(Attribute.AGE, Kind.AGE, Quantity.of(years, Unit.YEAR));
    }

    /**
     * Sex, in the sense of the published equations; kept as the index of its word.
     *
     * @throws ReadingRefused when it is null
     */
    public Builder sex(Sex sex) {
      refuseNull("sex", sex, UNKNOWN);
      return put(Attribute.SEX, Quantity.of(sex == Sex.FEMALE ? 0 : 1, Unit.ONE));
    }

    /**
     * Body mass.
     *
     * @throws ReadingRefused when it is null or no mass a person can have
     */
    public Builder mass(Quantity mass) {
      return measure(Attribute.MASS, Kind.MASS, mass);
    }

    /**
     * Body height.
     *
     * @throws ReadingRefused when it is null or no length a person can have
     */
    public Builder height(Quantity height) {
      return measure(Attribute.HEIGHT, Kind.LENGTH, height);
    }

    /**
     * A maximal heart rate that was measured in this person.
     *
     * @throws ReadingRefused when it is null or no heart rate a person can have
     */
    public Builder measuredMaxHeartRate(Quantity rate) {
      return measure(Attribute.MEASURED_MAX_HEART_RATE, Kind.HEART_RATE, rate);
    }

    /** Whether the person takes a medicine that slows the heart, such as a beta-blocker. */
    public Builder lowersHeartRate(boolean lowers) {
      return put(Attribute.LOWERS_HEART_RATE, Quantity.of(lowers ? 1 : 0, Unit.ONE));
    }

    /** Whether the person has been cleared for this test by your own procedure. */
    public Builder cleared(boolean cleared) {
      return put(Attribute.CLEARED, Quantity.of(cleared ? 1 : 0, Unit.ONE));
    }

    /** The person. */
    public Person build() {
      return new Person(values);
    }

    private Builder measure(Attribute attribute, Kind kind, Quantity value) {
      refuseNull(attribute.word(), value, UNKNOWN);
      if (value.kind() != kind) {
        throw new ReadingRefused(
            Code.G501, attribute.word(), value.toString(), "units such as " + kind.base().symbol());
      }
      if (value.base() < attribute.least() || value.base() > attribute.most()) {
        Unit unit = kind.base();
        String possible =
            Quantity.of(attribute.least(), unit) + " to " + Quantity.of(attribute.most(), unit);
        throw new ReadingRefused(Code.G502, attribute.word(), value.toString(), possible);
      }
      return put(attribute, value);
    }

    private Builder put(Attribute attribute, Quantity value) {
      values.put(attribute, value);
      return this;
    }
  }
}
