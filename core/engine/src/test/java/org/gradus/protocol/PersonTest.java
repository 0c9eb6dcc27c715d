package org.gradus.protocol;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.gradus.unit.Quantities.bpm;
import static org.gradus.unit.Quantities.kg;

import org.gradus.diagnostic.ReadingRefused;
import org.junit.jupiter.api.Test;

/** Facts about a person are possible ones, so that formulas can rely on them. */
class PersonTest {

  @Test
  void whatIsNotGivenIsNotKnown() {
    assertThat(Person.builder().age(46).build().value(Attribute.MASS)).isEmpty();
  }

  @Test
  void whatNoPersonCanHaveIsRefused() {
    Person.Builder person = Person.builder();
    assertThatExceptionOfType(ReadingRefused.class).isThrownBy(() -> person.age(131));
    assertThatExceptionOfType(ReadingRefused.class)
        .isThrownBy(() -> person.mass(kg(0)))
        .withMessageContaining("2 kg to 650 kg");
    assertThatExceptionOfType(ReadingRefused.class).isThrownBy(() -> person.mass(bpm(70)));
    assertThatExceptionOfType(ReadingRefused.class)
        .isThrownBy(() -> person.measuredMaxHeartRate(bpm(20)));
  }

  // A host that does not know hands over null; taken for anything it would be a guess.
  @Test
  @SuppressWarnings("NullAway")
  void nothingIsTakenForSomething() {
    Person.Builder person = Person.builder();
    assertThatExceptionOfType(ReadingRefused.class)
        .isThrownBy(() -> person.sex(null))
        .withMessageContaining("sex cannot be null")
        .withMessageContaining("leave it out");
    assertThatExceptionOfType(ReadingRefused.class)
        .isThrownBy(() -> person.mass(null))
        .withMessageContaining("mass cannot be null");
    assertThatExceptionOfType(ReadingRefused.class).isThrownBy(() -> person.height(null));
    assertThatExceptionOfType(ReadingRefused.class)
        .isThrownBy(() -> person.measuredMaxHeartRate(null));
    assertThat(person.build()).isEqualTo(Person.builder().build());
    assertThatExceptionOfType(ReadingRefused.class)
        .isThrownBy(() -> person.build().value(null))
        .withMessageContaining("attribute");
  }
}
