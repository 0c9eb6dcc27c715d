package org.gradus.history;

import static org.gradus.history.Form.TEXT;
import static org.gradus.history.Form.TIME;
import static org.gradus.history.Form.WHOLE;
import static org.gradus.history.Form.maybe;
import static org.gradus.history.Form.part;
import static org.gradus.history.Form.parts;
import static org.gradus.history.Form.whole;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.gradus.session.Event;
import org.gradus.session.Telling;

/** Events as JSON: of a line of a record, and of what a host receives. */
final class EventForm {

  private static final Form<String> REASON =
      Form.of(
          text -> text,
          (in, name) -> in.text(name, Telling.LONGEST_REASON),
          Lines.map("type", "string", "maxLength", Telling.LONGEST_REASON));

  static final Form<Event> EVENT =
      Form.oneOf(
          "what", event -> event.kind().name().toLowerCase(Locale.ROOT), forms(), "is no event");

  private EventForm() {}

  private static Map<String, Form.Parts<? extends Event>> forms() {
    Map<String, Form.Parts<? extends Event>> forms = new LinkedHashMap<>();
    forms.put(
        "read",
        whole(
            got -> new Event.Read(got.at(2), got.at(1), got.at(0)),
            part("at", Event.Read::at, TIME),
            part("taken", Event.Read::taken, TIME),
            parts("readings", Event.Read::readings, ReadingForm.READING)));
    forms.put(
        "reported",
        whole(
            got -> new Event.Reported(got.at(1), grade(got.at(2)), got.at(0)),
            part("at", Event.Reported::at, TIME),
            part("sign", Event.Reported::sign, TEXT),
            maybe(
                "grade",
                reported ->
                    reported.grade().isPresent()
                        ? Optional.of(reported.grade().getAsInt())
                        : Optional.empty(),
                WHOLE)));
    forms.put(
        "withdrawn",
        whole(
            got -> new Event.Withdrawn(got.at(1), got.at(2), got.at(0)),
            part("at", Event.Withdrawn::at, TIME),
            part("sign", Event.Withdrawn::sign, TEXT),
            part("reason", Event.Withdrawn::reason, REASON)));
    forms.put(
        "amended",
        whole(
            got -> new Event.Amended(got.at(1), got.at(2), got.at(3), got.at(0)),
            part("at", Event.Amended::at, TIME),
            part("event", Event.Amended::event, WHOLE),
            parts("readings", Event.Amended::readings, ReadingForm.READING),
            part("reason", Event.Amended::reason, REASON)));
    forms.put(
        "rejected",
        whole(
            got -> new Event.Rejected(got.at(1), got.at(2), got.at(3), got.at(0)),
            part("at", Event.Rejected::at, TIME),
            part("event", Event.Rejected::event, WHOLE),
            part("subject", Event.Rejected::subject, TEXT),
            part("reason", Event.Rejected::reason, REASON)));
    forms.put(
        "load_set",
        whole(
            got -> new Event.LoadSet(got.at(1), got.at(0)),
            part("at", Event.LoadSet::at, TIME),
            part("load", Event.LoadSet::load, ReadingForm.LOADING)));
    forms.put(
        "done",
        whole(
            got -> new Event.Done(got.at(1), got.at(0)),
            part("at", Event.Done::at, TIME),
            part("reached", Event.Done::reached, TIME)));
    forms.put(
        "followed",
        whole(
            got -> new Event.Followed(got.at(1), got.at(0)),
            part("at", Event.Followed::at, TIME),
            part("verdict", Event.Followed::verdict, VerdictForm.DONE)));
    forms.put(
        "overridden",
        whole(
            got -> new Event.Overridden(got.at(1), got.at(2), got.at(0)),
            part("at", Event.Overridden::at, TIME),
            part("verdict", Event.Overridden::verdict, VerdictForm.DONE),
            part("reason", Event.Overridden::reason, REASON)));
    forms.put(
        "abandoned",
        whole(
            got -> new Event.Abandoned(got.at(1), got.at(0)),
            part("at", Event.Abandoned::at, TIME),
            part("reason", Event.Abandoned::reason, REASON)));
    return forms;
  }

  private static OptionalInt grade(Optional<Integer> grade) {
    return grade.isPresent() ? OptionalInt.of(grade.get()) : OptionalInt.empty();
  }
}
