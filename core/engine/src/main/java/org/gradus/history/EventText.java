package org.gradus.history;

import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.gradus.protocol.Posture;
import org.gradus.session.Event;
import org.gradus.session.Loading;
import org.gradus.session.Reading;
import org.gradus.session.Telling;
import org.gradus.unit.Quantity;

/** Events as fields of a line, and back. */
final class EventText {

  private static final Event.Visitor<Map<String, Object>> WRITER = new Writer();

  private EventText() {}

  static Map<String, Object> write(Event event) {
    Map<String, Object> fields =
        Lines.map(
            "what", event.kind().name().toLowerCase(Locale.ROOT), "at", event.at().toString());
    fields.putAll(event.accept(WRITER));
    return fields;
  }

  /** What each kind of event has beside its kind and its time. */
  private static final class Writer implements Event.Visitor<Map<String, Object>> {
    @Override
    public Map<String, Object> read(Event.Read read) {
      return Lines.map("taken", read.taken().toString(), "readings", readings(read.readings()));
    }

    @Override
    public Map<String, Object> reported(Event.Reported reported) {
      Map<String, Object> fields = Lines.map("sign", reported.sign());
      reported.grade().ifPresent(grade -> fields.put("grade", grade));
      return fields;
    }

    @Override
    public Map<String, Object> withdrawn(Event.Withdrawn withdrawn) {
      return Lines.map("sign", withdrawn.sign(), "reason", withdrawn.reason());
    }

    @Override
    public Map<String, Object> amended(Event.Amended amended) {
      return Lines.map(
          "event", amended.event(),
          "readings", readings(amended.readings()),
          "reason", amended.reason());
    }

    @Override
    public Map<String, Object> rejected(Event.Rejected rejected) {
      return Lines.map(
          "event", rejected.event(), "subject", rejected.subject(), "reason", rejected.reason());
    }

    @Override
    public Map<String, Object> loadSet(Event.LoadSet set) {
      return Lines.map("load", loading(set.load()));
    }

    @Override
    public Map<String, Object> done(Event.Done done) {
      return Lines.map("reached", done.reached().toString());
    }

    @Override
    public Map<String, Object> followed(Event.Followed followed) {
      return Lines.map("verdict", VerdictText.write(followed.verdict()));
    }

    @Override
    public Map<String, Object> overridden(Event.Overridden overridden) {
      return Lines.map(
          "verdict", VerdictText.write(overridden.verdict()), "reason", overridden.reason());
    }

    @Override
    public Map<String, Object> abandoned(Event.Abandoned abandoned) {
      return Lines.map("reason", abandoned.reason());
    }
  }

  static Event read(Fields fields) {
    Duration at = fields.time("at");
    return switch (fields.text("what")) {
      case "read" -> {
        only(fields, "taken", "readings");
        yield new Event.Read(readings(fields), fields.time("taken"), at);
      }
      case "reported" -> {
        only(fields, "sign", "grade");
        OptionalInt grade =
            fields.has("grade") ? OptionalInt.of(fields.whole("grade")) : OptionalInt.empty();
        yield new Event.Reported(fields.text("sign"), grade, at);
      }
      case "withdrawn" -> {
        only(fields, "sign", "reason");
        yield new Event.Withdrawn(fields.text("sign"), reason(fields), at);
      }
      case "amended" -> {
        only(fields, "event", "readings", "reason");
        yield new Event.Amended(fields.whole("event"), readings(fields), reason(fields), at);
      }
      case "rejected" -> {
        only(fields, "event", "subject", "reason");
        yield new Event.Rejected(fields.whole("event"), fields.text("subject"), reason(fields), at);
      }
      case "load_set" -> {
        only(fields, "load");
        yield new Event.LoadSet(loading(fields.fields("load")), at);
      }
      case "done" -> {
        only(fields, "reached");
        yield new Event.Done(fields.time("reached"), at);
      }
      case "followed" -> {
        only(fields, "verdict");
        yield new Event.Followed(VerdictText.read(fields.fields("verdict")), at);
      }
      case "overridden" -> {
        only(fields, "verdict", "reason");
        yield new Event.Overridden(VerdictText.read(fields.fields("verdict")), reason(fields), at);
      }
      case "abandoned" -> {
        only(fields, "reason");
        yield new Event.Abandoned(reason(fields), at);
      }
      default -> throw fields.unreadable("what", "is no event");
    };
  }

  private static void only(Fields fields, String... names) {
    List<String> all = new ArrayList<>(List.of("what", "at"));
    all.addAll(List.of(names));
    fields.only(all.toArray(new String[0]));
  }

  private static String reason(Fields fields) {
    return fields.text("reason", Telling.LONGEST_REASON);
  }

  static Map<String, Object> loading(Loading load) {
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

  static Loading loading(Fields fields) {
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

  private static List<Map<String, Object>> readings(List<Reading> readings) {
    return readings.stream()
        .flatMap(reading -> reading.parts().stream())
        .map(EventText::reading)
        .toList();
  }

  private static List<Reading> readings(Fields fields) {
    return fields.list("readings").stream().map(EventText::reading).toList();
  }

  private static Map<String, Object> reading(Reading reading) {
    Map<String, Object> fields = new LinkedHashMap<>();
    Reading bare = reading;
    if (reading instanceof Reading.Baseline baseline) {
      fields.put("posture", baseline.posture().word());
      bare = baseline.reading();
    }
    fields.put("subject", bare.subject());
    if (bare instanceof Reading.Measured measured) {
      fields.put("value", Fields.of(measured.value()));
      measured.step().ifPresent(step -> fields.put("step", Fields.of(step)));
      measured.scale().ifPresent(scale -> fields.put("scale", scale));
    } else if (bare instanceof Reading.Chosen chosen) {
      fields.put("word", chosen.word());
    } else if (bare instanceof Reading.Answered answered) {
      fields.put("yes", answered.yes());
    }
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
