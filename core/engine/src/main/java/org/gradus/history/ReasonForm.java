package org.gradus.history;

import static org.gradus.history.Form.TEXT;
import static org.gradus.history.Form.TIME;
import static org.gradus.history.Form.maybe;
import static org.gradus.history.Form.part;
import static org.gradus.history.Form.parts;
import static org.gradus.history.Form.whole;

import java.util.Map;
import org.gradus.knowledge.Citation;
import org.gradus.rule.answer.Filled;
import org.gradus.rule.answer.Gap;
import org.gradus.session.Because;

/** Sources, reasons and what is missing as JSON. */
final class ReasonForm {

  static final Form<Citation> CITATION =
      whole(
          got -> new Citation(got.at(0), got.at(1)),
          part("key", Citation::key, TEXT),
          part("text", Citation::text, TEXT));

  private static final Form<Filled> FILLED =
      whole(
          got -> Filled.of(got.at(0), got.at(1)),
          part("text", Filled::text, TEXT),
          parts(
              "definitions",
              Filled::definitions,
              whole(
                  got -> new Filled.Definition(got.at(0), got.at(1), got.at(2)),
                  part("name", Filled.Definition::name, TEXT),
                  part("value", Filled.Definition::value, TEXT),
                  part("text", Filled.Definition::text, TEXT))));

  static final Form<Because> BECAUSE =
      whole(
          got -> new Because(got.at(0), got.at(1), got.at(2), got.at(3), got.at(4), got.at(5)),
          part("rule", Because::rule, TEXT),
          part("text", Because::text, TEXT),
          maybe("filled", Because::filled, FILLED),
          maybe("why", Because::reason, MessageForm.MESSAGE),
          part("instruction", Because::instruction, TEXT),
          part("source", Because::source, CITATION));

  static final Form<Gap> GAP =
      whole(
          got -> new Gap(got.at(0), got.at(1), got.at(2)),
          part("subject", Gap::subject, TEXT),
          part("cause", Gap::cause, Form.words(Gap.Cause.class)),
          part(
              "settle",
              Gap::settle,
              Form.oneOf(
                  "when",
                  ReasonForm::when,
                  Map.of(
                      "now", whole(got -> new Gap.Settle.Now()),
                      "never", whole(got -> new Gap.Settle.Never()),
                      "at",
                          whole(
                              got -> new Gap.Settle.At(got.at(0)),
                              part("time", Gap.Settle.At::time, TIME))),
                  "is not now, at or never")));

  private ReasonForm() {}

  private static String when(Gap.Settle settle) {
    return settle.match(now -> "now", at -> "at", never -> "never");
  }
}
