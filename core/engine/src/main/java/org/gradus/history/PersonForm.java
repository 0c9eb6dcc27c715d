package org.gradus.history;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Person;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** What is known of a person as JSON: each fact under the name that rules use, as an amount. */
final class PersonForm {

  static final Form<Person> PERSON =
      Form.of(PersonForm::known, (in, name) -> person(in.fields(name)), schema());

  private PersonForm() {}

  private static Map<String, Object> schema() {
    Map<String, Object> properties = new LinkedHashMap<>();
    for (Attribute attribute : Attribute.values()) {
      properties.put(attribute.word(), Form.QUANTITY.schema());
    }
    return Form.described(properties, List.of());
  }

  private static Map<String, Object> known(Person person) {
    Map<String, Object> known = new LinkedHashMap<>();
    for (Attribute attribute : Attribute.values()) {
      person.value(attribute).ifPresent(value -> known.put(attribute.word(), Fields.of(value)));
    }
    return known;
  }

  private static Person person(Fields fields) {
    fields.only(Arrays.stream(Attribute.values()).map(Attribute::word).toArray(String[]::new));
    Person.Builder builder = Person.builder();
    for (Attribute attribute : Attribute.values()) {
      if (fields.has(attribute.word())) {
        Quantity value = fields.fields(attribute.word()).quantity();
        try {
          give(builder, attribute, value);
        } catch (ReadingRefused refused) {
          throw fields.unreadable(attribute.word(), "cannot be " + value);
        }
      }
    }
    return builder.build();
  }

  private static void give(Person.Builder builder, Attribute attribute, Quantity value) {
    switch (attribute) {
      case AGE -> builder.age(whole(attribute, value, Unit.YEAR));
      case SEX -> builder.sex(truth(attribute, value) ? Person.Sex.MALE : Person.Sex.FEMALE);
      case MASS -> builder.mass(value);
      case HEIGHT -> builder.height(value);
      case LOWERS_HEART_RATE -> builder.lowersHeartRate(truth(attribute, value));
      case CLEARED -> builder.cleared(truth(attribute, value));
      case MEASURED_MAX_HEART_RATE -> builder.measuredMaxHeartRate(value);
    }
  }

  // A condition is 1 or 0, and a sex the index of its word.
  private static boolean truth(Attribute attribute, Quantity value) {
    int number = whole(attribute, value, Unit.ONE);
    if (number != 0 && number != 1) {
      throw new ReadingRefused(Code.G502, attribute.word(), value.toString(), "0 or 1");
    }
    return number == 1;
  }

  private static int whole(Attribute attribute, Quantity value, Unit unit) {
    int number = (int) value.amount();
    if (value.unit() != unit || number != value.amount()) {
      throw new ReadingRefused(Code.G501, attribute.word(), value.toString(), unit.symbol());
    }
    return number;
  }
}
