package org.gradus.history;

import static org.gradus.history.Form.NUMBER;
import static org.gradus.history.Form.QUANTITY;
import static org.gradus.history.Form.TEXT;
import static org.gradus.history.Form.TRUTH;
import static org.gradus.history.Form.WHOLE;
import static org.gradus.history.Form.maybe;
import static org.gradus.history.Form.named;
import static org.gradus.history.Form.part;
import static org.gradus.history.Form.parts;
import static org.gradus.history.Form.whole;
import static org.gradus.history.MessageForm.MESSAGE;
import static org.gradus.history.ReasonForm.CITATION;

import java.util.LinkedHashMap;
import java.util.Map;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Clearance;
import org.gradus.capacity.Estimate;
import org.gradus.capacity.Finding;
import org.gradus.capacity.Interval;
import org.gradus.capacity.Result;
import org.gradus.capacity.TestFacts;
import org.gradus.knowledge.PlausibleRange;
import org.gradus.protocol.EstimateLine.Covers;
import org.gradus.protocol.EstimateLine.PublishedError;
import org.gradus.protocol.LoadRange;
import org.gradus.protocol.Suspicion;

/** What came out of a test as JSON. */
final class CapacityForm {

  private static final Form<Interval> INTERVAL =
      whole(
          got ->
              new Interval(
                  got.at(0), got.at(1), got.at(2), got.at(3), got.at(4), got.at(5), got.at(6),
                  got.at(7), got.at(8)),
          part("low", Interval::low, QUANTITY),
          part("high", Interval::high, QUANTITY),
          part("sd", Interval::sd, QUANTITY),
          part("basis", Interval::basis, Form.words(Interval.Basis.class)),
          part("propagated", Interval::propagated, QUANTITY),
          part("readings", Interval::readings, QUANTITY),
          part("model", Interval::model, QUANTITY),
          parts(
              "shares",
              Interval::shares,
              whole(
                  got -> new Interval.Share(got.at(0), got.at(1), got.at(2), got.at(3), got.at(4)),
                  part("name", Interval.Share::label, MESSAGE),
                  part("sd", Interval.Share::sd, QUANTITY),
                  part("share", Interval.Share::share, NUMBER),
                  part("percent", Interval.Share::percent, WHOLE),
                  part("source", Interval.Share::source, CITATION))),
          part("nearLinear", Interval::nearLinear, TRUTH));

  private static final Form<Estimate.Ingredient> INGREDIENT =
      whole(
          got ->
              new Estimate.Ingredient(
                  got.at(0), got.at(1), got.at(2), got.at(3), got.at(4), got.at(5)),
          part("name", Estimate.Ingredient::name, TEXT),
          part("label", Estimate.Ingredient::label, MESSAGE),
          part("value", Estimate.Ingredient::shown, MESSAGE),
          part("how", Estimate.Ingredient::method, MESSAGE),
          part("source", Estimate.Ingredient::source, CITATION),
          maybe("spread", Estimate.Ingredient::spread, QUANTITY));

  private static final Form<PublishedError> ERROR =
      whole(
          got -> new PublishedError(got.at(0), got.at(1), got.at(2), got.at(3)),
          part("sd", PublishedError::sd, QUANTITY),
          part("covers", PublishedError::covers, Form.words(Covers.class)),
          part("source", PublishedError::source, CITATION),
          part("note", PublishedError::note, TEXT));

  private static final Form<PlausibleRange> PLAUSIBLE =
      whole(
          got -> new PlausibleRange(got.at(0), got.at(1), got.at(2), got.at(3)),
          part("result", PlausibleRange::result, TEXT),
          part("range", PlausibleRange::range, DecisionForm.RANGE),
          part("check", PlausibleRange::check, TEXT),
          part("source", PlausibleRange::source, CITATION));

  private static final Form<Estimate> ESTIMATE =
      Form.oneOf("is", CapacityForm::outcome, estimates(), "is not how an estimate comes out");

  private static final Form<Result> RESULT =
      whole(
          got ->
              new Result(
                  got.at(0),
                  got.at(1),
                  got.at(2),
                  got.at(3),
                  got.at(4),
                  got.at(5),
                  got.at(6),
                  got.at(7),
                  got.at(8),
                  got.at(9),
                  got.at(10),
                  got.at(11),
                  got.at(12)),
          part("id", Result::id, TEXT),
          part("title", Result::title, TEXT),
          part("source", Result::source, CITATION),
          part("assumes", Result::assumes, TEXT),
          maybe("value", Result::value, QUANTITY),
          maybe("interval", Result::interval, INTERVAL),
          maybe(
              "reference",
              Result::reference,
              whole(
                  got -> new Result.Compared(got.at(0), got.at(1), got.at(2), got.at(3)),
                  part("value", Result.Compared::value, QUANTITY),
                  maybe("lower", Result.Compared::lower, QUANTITY),
                  maybe("upper", Result.Compared::upper, QUANTITY),
                  part("source", Result.Compared::source, CITATION))),
          part("calculation", Result::calculation, TEXT),
          parts("ingredients", Result::ingredients, INGREDIENT),
          maybe("publishedError", Result::publishedError, ERROR),
          parts("cautions", Result::warnings, MESSAGE),
          maybe("outside", Result::outside, PLAUSIBLE),
          parts("reasons", Result::lacks, MESSAGE));

  private static final Form<Finding> FINDING =
      whole(
          got -> new Finding(got.at(0), got.at(1), got.at(2), got.at(3), got.at(4), got.at(5)),
          part("rule", Finding::rule, TEXT),
          part(
              "suspicion",
              Finding::suspicion,
              whole(
                  got -> new Suspicion(got.at(0), got.at(1)),
                  part("ingredient", Suspicion::ingredient, TEXT),
                  part("look", Suspicion::look, Form.words(Suspicion.Look.class)))),
          parts("stages", Finding::stages, TEXT),
          part("why", Finding::reason, MESSAGE),
          part("numbers", Finding::numbers, TEXT),
          part("source", Finding::source, CITATION));

  private static final Form<TestFacts> FACTS =
      whole(
          got ->
              new TestFacts(
                  got.at(0), got.at(1), got.at(2), got.at(3), got.at(4), got.at(5), got.at(6),
                  got.at(7), got.at(8)),
          part("protocol", TestFacts::protocol, TEXT),
          part("title", TestFacts::title, TEXT),
          part("ergometer", TestFacts::ergometer, TEXT),
          part("purpose", TestFacts::purpose, TEXT),
          part("settings", TestFacts::settings, named(TEXT)),
          maybe("maximum", TestFacts::maximum, TEXT),
          part("person", TestFacts::person, PersonForm.PERSON),
          part("readings", TestFacts::readings, named(QUANTITY)),
          part(
              "loads",
              TestFacts::loads,
              named(
                  whole(
                      got -> new LoadRange(got.at(0), got.at(1), got.at(2)),
                      part("name", LoadRange::name, TEXT),
                      part("range", LoadRange::range, DecisionForm.RANGE),
                      part("source", LoadRange::source, CITATION)))));

  static final Form<Capacity> CAPACITY =
      whole(
          got -> new Capacity(got.at(0), got.at(1), got.at(2), got.at(3), got.at(4)),
          part("facts", Capacity::facts, FACTS),
          parts("estimates", Capacity::estimates, ESTIMATE),
          parts("results", Capacity::results, RESULT),
          parts("findings", Capacity::findings, FINDING),
          part("clearance", Capacity::clearance, Form.words(Clearance.class)));

  private CapacityForm() {}

  private static String outcome(Estimate estimate) {
    return estimate.match(
        available -> "available", implausible -> "implausible", unavailable -> "unavailable");
  }

  private static Map<String, Form.Parts<? extends Estimate>> estimates() {
    Map<String, Form.Parts<? extends Estimate>> forms = new LinkedHashMap<>();
    forms.put(
        "available",
        whole(
            got ->
                new Estimate.Available(
                    got.at(0), got.at(1), got.at(2), got.at(3), got.at(4), got.at(5), got.at(6),
                    got.at(7), got.at(8), got.at(9)),
            part("id", Estimate.Available::id, TEXT),
            part("source", Estimate.Available::source, CITATION),
            part("assumes", Estimate.Available::assumes, TEXT),
            part("secondLook", Estimate.Available::secondLook, TRUTH),
            part("vo2max", Estimate.Available::vo2max, QUANTITY),
            maybe("interval", Estimate.Available::interval, INTERVAL),
            part("calculation", Estimate.Available::calculation, TEXT),
            parts("ingredients", Estimate.Available::ingredients, INGREDIENT),
            maybe("publishedError", Estimate.Available::publishedError, ERROR),
            parts("cautions", Estimate.Available::warnings, MESSAGE)));
    forms.put(
        "implausible",
        whole(
            got ->
                new Estimate.Implausible(
                    got.at(0), got.at(1), got.at(2), got.at(3), got.at(4), got.at(5)),
            part("id", Estimate.Implausible::id, TEXT),
            part("source", Estimate.Implausible::source, CITATION),
            part("secondLook", Estimate.Implausible::secondLook, TRUTH),
            part("vo2max", Estimate.Implausible::vo2max, QUANTITY),
            part("plausible", Estimate.Implausible::plausible, PLAUSIBLE),
            part("calculation", Estimate.Implausible::calculation, TEXT)));
    forms.put(
        "unavailable",
        whole(
            got -> new Estimate.Unavailable(got.at(0), got.at(1), got.at(2), got.at(3)),
            part("id", Estimate.Unavailable::id, TEXT),
            part("source", Estimate.Unavailable::source, CITATION),
            part("secondLook", Estimate.Unavailable::secondLook, TRUTH),
            parts("reasons", Estimate.Unavailable::lacks, MESSAGE)));
    return forms;
  }
}
