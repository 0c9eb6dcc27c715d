package org.gradus.history;

import static org.gradus.history.Form.TEXT;
import static org.gradus.history.Form.TIME;
import static org.gradus.history.Form.TRUTH;
import static org.gradus.history.Form.maybe;
import static org.gradus.history.Form.part;
import static org.gradus.history.Form.parts;
import static org.gradus.history.Form.whole;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.session.Because;
import org.gradus.session.Ending;
import org.gradus.session.Verdict;

/**
 * Verdicts as JSON. One that was acted upon says what was done; one that is recommended says why.
 */
final class VerdictForm {

  static final Form<Verdict> ANY = Form.oneOf("word", Verdict::word, forms(), "is no verdict");

  /** What was done, as events keep it. */
  static final Form<Verdict> DONE =
      Form.of(
          ANY::write,
          (in, name) -> {
            Verdict verdict = ANY.read(in, name);
            return switch (verdict.kind()) {
              case READY,
                  DEFER,
                  CONTINUE,
                  HOLD,
                  CHANGE,
                  ADVANCE,
                  FINISH,
                  STOP,
                  END,
                  NOT_RECOVERED ->
                  verdict;
              case MEASURE, OVER ->
                  throw in.fields(name).unreadable("word", "is no verdict that can be followed");
            };
          },
          ANY.schema());

  private VerdictForm() {}

  private static Map<String, Form.Parts<? extends Verdict>> forms() {
    Map<String, Form.Parts<? extends Verdict>> forms = new LinkedHashMap<>();
    forms.put(
        "READY",
        whole(
            got -> new Verdict.Ready(got.at(0), got.at(1)),
            part("stage", Verdict.Ready::stage, TEXT),
            parts("loads", Verdict.Ready::loads, ReadingForm.LOADING)));
    forms.put(
        "DEFER",
        whole(
            got -> new Verdict.Defer(got.<Optional<List<Because>>>at(0).orElse(List.of())),
            maybe(
                "reasons", defer -> unlessEmpty(defer.reasons()), Form.list(ReasonForm.BECAUSE))));
    forms.put(
        "CONTINUE",
        whole(
            got -> new Verdict.Continue(got.at(0)), part("until", Verdict.Continue::until, TIME)));
    forms.put(
        "MEASURE",
        whole(
            got -> new Verdict.Measure(got.at(0), got.at(1)),
            parts("gaps", Verdict.Measure::gaps, ReasonForm.GAP),
            maybe("until", Verdict.Measure::until, TIME)));
    forms.put(
        "HOLD",
        whole(got -> new Verdict.Hold(got.at(0)), part("until", Verdict.Hold::until, TIME)));
    forms.put(
        "CHANGE",
        whole(
            got -> new Verdict.Change(got.at(0), got.at(1)),
            part("stage", Verdict.Change::stage, TEXT),
            parts("loads", Verdict.Change::loads, ReadingForm.LOADING)));
    forms.put(
        "ADVANCE",
        whole(
            got -> new Verdict.Advance(got.at(0), got.at(1)),
            part("stage", Verdict.Advance::stage, TEXT),
            parts("loads", Verdict.Advance::loads, ReadingForm.LOADING)));
    forms.put(
        "FINISH",
        whole(
            got -> new Verdict.Finish(got.at(0)),
            parts("then", Verdict.Finish::then, ReadingForm.LOADING)));
    forms.put(
        "STOP",
        whole(
            got -> new Verdict.Stop(got.at(0), got.at(1), got.at(2)),
            part("rest", Verdict.Stop::rest, TRUTH),
            part("instruction", Verdict.Stop::instruction, TEXT),
            parts("then", Verdict.Stop::then, ReadingForm.LOADING)));
    forms.put("END", whole(got -> new Verdict.End()));
    forms.put(
        "NOT RECOVERED",
        whole(
            got -> new Verdict.NotRecovered(got.at(0)),
            parts("unmet", Verdict.NotRecovered::conditions, MessageForm.MESSAGE_OR_TEXT)));
    forms.put(
        "OVER",
        whole(
            got -> new Verdict.Over(got.at(0)),
            part("ending", Verdict.Over::ending, Form.words(Ending.class))));
    return forms;
  }

  private static <T> Optional<List<T>> unlessEmpty(List<T> all) {
    return all.isEmpty() ? Optional.empty() : Optional.of(all);
  }
}
