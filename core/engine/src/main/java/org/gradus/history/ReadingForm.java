package org.gradus.history;

import static org.gradus.history.Form.QUANTITY;
import static org.gradus.history.Form.TEXT;
import static org.gradus.history.Form.TIME;
import static org.gradus.history.Form.TRUTH;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.protocol.Posture;
import org.gradus.session.Loading;
import org.gradus.session.Reading;
import org.gradus.unit.Quantity;

/** Loads and readings as JSON. */
final class ReadingForm {

  static final Form<Loading> LOADING =
      Form.of(
          ReadingForm::write,
          (in, name) -> loading(in.fields(name)),
          Form.described(
              Lines.map(
                  "name",
                  TEXT.schema(),
                  "value",
                  QUANTITY.schema(),
                  "ramp",
                  Form.described(
                      Lines.map(
                          "step",
                          QUANTITY.schema(),
                          "every",
                          TIME.schema(),
                          "to",
                          QUANTITY.schema()),
                      List.of("step", "every", "to"))),
              List.of("name", "value")));

  /** One reading; one with parts stands as its parts. */
  static final Form<Reading> READING =
      Form.of(ReadingForm::write, (in, name) -> reading(in.fields(name)), schema());

  private ReadingForm() {}

  // What is measured, chosen or answered is known by the field that says it.
  private static Map<String, Object> schema() {
    return Lines.map(
        "oneOf",
        List.of(
            told(Lines.map("value", QUANTITY.schema()), "step", QUANTITY, "scale", TEXT),
            told(Lines.map("word", TEXT.schema())),
            told(Lines.map("yes", TRUTH.schema()))));
  }

  private static Map<String, Object> told(Map<String, Object> what, Object... maybe) {
    Map<String, Object> properties =
        Lines.map(
            "posture",
            Lines.map("enum", Arrays.stream(Posture.values()).map(Posture::word).toList()),
            "subject",
            TEXT.schema());
    properties.putAll(what);
    for (int i = 0; i < maybe.length; i += 2) {
      properties.put(maybe[i].toString(), ((Form<?>) maybe[i + 1]).schema());
    }
    List<String> needed = new java.util.ArrayList<>(List.of("subject"));
    needed.addAll(what.keySet());
    return Form.described(properties, needed);
  }

  private static Map<String, Object> write(Loading load) {
    Map<String, Object> fields = Lines.map("name", load.name(), "value", Fields.of(load.value()));
    load.ramp()
        .ifPresent(
            ramp ->
                fields.put(
                    "ramp",
                    Lines.map(
                        "step",
                        Fields.of(ramp.step()),
                        "every",
                        ramp.every().toString(),
                        "to",
                        Fields.of(ramp.to()))));
    return fields;
  }

  private static Loading loading(Fields fields) {
    fields.only("name", "value", "ramp");
    Quantity value = fields.fields("value").quantity();
    Optional<Loading.Ramp> ramp =
        fields.has("ramp") ? Optional.of(ramp(fields.fields("ramp"), value)) : Optional.empty();
    return new Loading(fields.text("name"), value, ramp);
  }

  private static Loading.Ramp ramp(Fields fields, Quantity value) {
    fields.only("step", "every", "to");
    return new Loading.Ramp(
        fields.fields("step").quantityLike(value),
        fields.span("every"),
        fields.fields("to").quantityLike(value));
  }

  private static Map<String, Object> write(Reading reading) {
    return reading.match(
        ReadingForm::measured,
        pressure -> {
          throw new IllegalStateException("a cuff reading is told as its parts");
        },
        chosen -> Lines.map("subject", chosen.subject(), "word", chosen.word()),
        answered -> Lines.map("subject", answered.subject(), "yes", answered.yes()),
        baseline -> {
          Map<String, Object> fields = Lines.map("posture", baseline.posture().word());
          fields.putAll(write(baseline.reading()));
          return fields;
        });
  }

  private static Map<String, Object> measured(Reading.Measured measured) {
    Map<String, Object> fields =
        Lines.map("subject", measured.subject(), "value", Fields.of(measured.value()));
    measured.step().ifPresent(step -> fields.put("step", Fields.of(step)));
    measured.scale().ifPresent(scale -> fields.put("scale", scale));
    return fields;
  }

  private static Reading reading(Fields fields) {
    Reading bare;
    String subject = fields.text("subject");
    if (fields.has("value")) {
      fields.only("posture", "subject", "value", "step", "scale");
      Quantity value = fields.fields("value").quantity();
      bare =
          new Reading.Measured(
              subject,
              value,
              fields.has("step")
                  ? Optional.of(fields.fields("step").quantityLike(value))
                  : Optional.empty(),
              fields.maybeText("scale"));
    } else if (fields.has("word")) {
      fields.only("posture", "subject", "word");
      bare = new Reading.Chosen(subject, fields.text("word"));
    } else {
      fields.only("posture", "subject", "yes");
      bare = new Reading.Answered(subject, fields.truth("yes"));
    }
    return fields.has("posture") ? new Reading.Baseline(posture(fields), bare) : bare;
  }

  private static Posture posture(Fields fields) {
    String word = fields.text("posture");
    for (Posture posture : Posture.values()) {
      if (posture.word().equals(word)) {
        return posture;
      }
    }
    throw fields.unreadable("posture", "is no posture");
  }
}
