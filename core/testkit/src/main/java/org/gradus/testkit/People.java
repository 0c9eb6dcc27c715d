package org.gradus.testkit;

import java.util.Optional;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Eligibility;
import org.gradus.protocol.Person;
import org.gradus.protocol.Person.Sex;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** People for a protocol. What it needs is always given; the rest mostly. */
final class People {

  private static final double MOSTLY = 0.85;

  private final Eligibility eligibility;

  People(Eligibility eligibility) {
    this.eligibility = eligibility;
  }

  /** Those whom the protocol is for. */
  Arbitrary<Person> suited() {
    return people(
        Arbitraries.integers().between(eligibility.youngest(), eligibility.oldest()),
        measure(Unit.KILOGRAM, 45, 130),
        measure(Unit.CENTIMETRE, 145, 205),
        Arbitraries.just(true),
        Arbitraries.just(false));
  }

  /** Those just inside and just outside its ages, with masses and heights that hardly occur. */
  Arbitrary<Person> atTheEdges() {
    return people(
        Arbitraries.of(
                eligibility.youngest() - 1,
                eligibility.youngest(),
                eligibility.oldest(),
                eligibility.oldest() + 1)
            .filter(age -> age >= Attribute.AGE.least() && age <= Attribute.AGE.most()),
        ends(Attribute.MASS, Unit.KILOGRAM),
        ends(Attribute.HEIGHT, Unit.METRE),
        Arbitraries.just(true),
        Arbitraries.just(false));
  }

  /** Anybody of whom is known what the protocol needs. */
  Arbitrary<Person> anybody() {
    return people(
        Arbitraries.integers().between((int) Attribute.AGE.least(), (int) Attribute.AGE.most()),
        measure(Unit.KILOGRAM, 30, 250),
        measure(Unit.CENTIMETRE, 120, 220),
        Arbitraries.of(true, false),
        Arbitraries.of(true, false));
  }

  private Arbitrary<Person> people(
      Arbitrary<Integer> ages,
      Arbitrary<Quantity> masses,
      Arbitrary<Quantity> heights,
      Arbitrary<Boolean> cleared,
      Arbitrary<Boolean> slowed) {
    Arbitrary<Quantity> maxima = measure(Unit.BPM, 140, 210);
    return Combinators.combine(
            given(Attribute.AGE, ages, 1),
            given(Attribute.SEX, Arbitraries.of(Sex.class), MOSTLY),
            given(Attribute.MASS, masses, MOSTLY),
            given(Attribute.HEIGHT, heights, MOSTLY),
            given(Attribute.CLEARED, cleared, 1),
            given(Attribute.LOWERS_HEART_RATE, slowed, 1),
            given(Attribute.MEASURED_MAX_HEART_RATE, maxima, 0.2))
        .as(People::person);
  }

  private <T> Arbitrary<Optional<T>> given(Attribute attribute, Arbitrary<T> of, double share) {
    boolean always = share >= 1 || eligibility.needs().contains(attribute.word());
    return always ? of.map(Optional::of) : of.optional(share);
  }

  private static Arbitrary<Quantity> measure(Unit unit, int low, int high) {
    return Arbitraries.integers().between(low, high).map(amount -> Quantity.of(amount, unit));
  }

  private static Arbitrary<Quantity> ends(Attribute attribute, Unit unit) {
    return Arbitraries.of(
        Quantity.ofBase(attribute.least(), unit), Quantity.ofBase(attribute.most(), unit));
  }

  private static Person person(
      Optional<Integer> age,
      Optional<Sex> sex,
      Optional<Quantity> mass,
      Optional<Quantity> height,
      Optional<Boolean> cleared,
      Optional<Boolean> slowed,
      Optional<Quantity> maximum) {
    Person.Builder person = Person.builder();
    age.ifPresent(person::age);
    sex.ifPresent(person::sex);
    mass.ifPresent(person::mass);
    height.ifPresent(person::height);
    cleared.ifPresent(person::cleared);
    slowed.ifPresent(person::lowersHeartRate);
    maximum.ifPresent(person::measuredMaxHeartRate);
    return person.build();
  }
}
