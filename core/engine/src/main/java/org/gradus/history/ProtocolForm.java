package org.gradus.history;

import static org.gradus.history.DecisionForm.POSTURE;
import static org.gradus.history.DecisionForm.RANGE;
import static org.gradus.history.DecisionForm.SIGN;
import static org.gradus.history.DecisionForm.TYPE;
import static org.gradus.history.DecisionForm.UNIT;
import static org.gradus.history.Form.NUMBER;
import static org.gradus.history.Form.QUANTITY;
import static org.gradus.history.Form.TEXT;
import static org.gradus.history.Form.TIME;
import static org.gradus.history.Form.TRUTH;
import static org.gradus.history.Form.WHOLE;
import static org.gradus.history.Form.maybe;
import static org.gradus.history.Form.onlyWritten;
import static org.gradus.history.Form.part;
import static org.gradus.history.Form.parts;
import static org.gradus.history.ReasonForm.CITATION;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.protocol.BaselineLine;
import org.gradus.protocol.Cue;
import org.gradus.protocol.EstimateLine;
import org.gradus.protocol.LoadRange;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Question;
import org.gradus.protocol.Recovery;
import org.gradus.protocol.Scale;
import org.gradus.protocol.Setting;
import org.gradus.protocol.Signal;
import org.gradus.protocol.Stage;
import org.gradus.protocol.Timing;
import org.gradus.rule.Formula;
import org.gradus.rule.syntax.RuleText;
import org.gradus.session.Ending;
import org.gradus.session.Outcome;
import org.gradus.session.Phase;
import org.gradus.session.StageResult;
import org.gradus.unit.Quantity;

/**
 * Protocols, and tests as they stand, as JSON. They are written only: a library alone makes a
 * protocol, and a session alone an outcome. What stands here names them, so that a host finds them.
 */
final class ProtocolForm {

  /** An amount in figures as the file writes it; a formula or a word as its text. */
  private static final Form<Object> AMOUNT_OR_TEXT =
      Form.of(
          value ->
              value instanceof Quantity amount ? QUANTITY.write(amount) : String.valueOf(value),
          (in, name) -> {
            throw in.unreadable(name, "is only written");
          },
          Lines.map("oneOf", List.of(QUANTITY.schema(), TEXT.schema())));

  private static final Form<Timing> TIMING = Form.oneOf("when", ProtocolForm::when, timings(), "");

  private static final Form<Setting> SETTING =
      onlyWritten(
          part("name", Setting::name, TEXT),
          part("value", setting -> plain(setting.value()), AMOUNT_OR_TEXT),
          parts(
              "options",
              Setting::options,
              onlyWritten(
                  part("value", option -> plain(option.value()), AMOUNT_OR_TEXT),
                  part("note", Setting.Option::note, TEXT),
                  part("source", Setting.Option::source, CITATION))),
          maybe("range", Setting::range, RANGE),
          part("source", Setting::source, CITATION));

  private static final Form<Signal> SIGNAL =
      onlyWritten(
          part("name", Signal::name, TEXT),
          part("type", Signal::type, TYPE),
          maybe("range", Signal::range, RANGE),
          maybe("step", Signal::step, QUANTITY),
          maybe("below", Signal::below, TEXT),
          part("source", Signal::source, CITATION));

  private static final Form<Scale> SCALE =
      onlyWritten(
          part("name", Scale::name, TEXT),
          part("of", Scale::of, TEXT),
          part("low", Scale::low, NUMBER),
          part("high", Scale::high, NUMBER),
          part("step", Scale::step, NUMBER),
          part("source", Scale::source, CITATION));

  private static final Form<Question> QUESTION =
      onlyWritten(
          part("name", Question::name, TEXT),
          part("type", Question::type, TYPE),
          part("prompt", Question::prompt, TEXT),
          maybe("range", Question::range, RANGE),
          parts(
              "options",
              Question::options,
              onlyWritten(
                  part("value", Question.Offered::value, QUANTITY),
                  part("source", Question.Offered::source, CITATION))),
          part("source", Question::source, CITATION));

  private static final Form<MeasureLine> MEASURE =
      onlyWritten(
          parts("signals", MeasureLine::signals, TEXT),
          part("timing", MeasureLine::timing, TIMING),
          part("over", MeasureLine::over, TIME),
          part("takes", MeasureLine::takes, TIME),
          part("within", MeasureLine::within, TIME),
          part("late", MeasureLine::late, TIME),
          maybe("validFor", MeasureLine::validFor, TIME),
          part("ifMissing", MeasureLine::ifMissing, Form.words(MeasureLine.IfMissing.class)),
          maybe("scale", MeasureLine::scale, TEXT),
          maybe("as", MeasureLine::named, TEXT),
          maybe("posture", MeasureLine::posture, TEXT),
          parts("in", MeasureLine::in, TEXT));

  private static final Form<ProtocolRule> RULE =
      onlyWritten(
          part("id", ProtocolRule::id, TEXT),
          part("text", rule -> rule.rule().text(), TEXT),
          part("why", ProtocolRule::why, TEXT),
          part("instruction", ProtocolRule::instruction, TEXT),
          part("source", ProtocolRule::source, CITATION),
          maybe("confirm", ProtocolRule::confirm, TIME),
          part("stagesOnly", ProtocolRule::stagesOnly, TRUTH),
          part("then", ProtocolRule::then, Form.words(ProtocolRule.Then.class)),
          part("alarming", ProtocolRule::alarming, TRUTH));

  private static final Form<Stage> STAGE =
      onlyWritten(
          part("id", Stage::id, TEXT),
          part("lasts", Stage::lasts, TIME),
          part("untilDone", Stage::untilDone, TRUTH),
          parts(
              "loads",
              Stage::loads,
              onlyWritten(
                  part("name", Stage.Load::name, TEXT),
                  part("value", load -> written(load.value()), AMOUNT_OR_TEXT),
                  part("unit", Stage.Load::unit, UNIT),
                  maybe(
                      "ramp",
                      Stage.Load::ramp,
                      onlyWritten(
                          part("step", ramp -> written(ramp.step()), AMOUNT_OR_TEXT),
                          part("every", Stage.Ramp::every, TIME),
                          part("to", ramp -> written(ramp.to()), AMOUNT_OR_TEXT))))),
          maybe("posture", Stage::posture, TEXT),
          part("warmUp", Stage::warmUp, TRUTH),
          part("pause", Stage::pause, TRUTH),
          maybe(
              "round",
              Stage::round,
              onlyWritten(
                  part("block", Stage.Round::block, TEXT),
                  part("number", Stage.Round::number, WHOLE))),
          maybe("rules", Stage::ownRules, Form.list(RULE)),
          part("source", Stage::source, CITATION));

  static final Form<Protocol> PROTOCOL =
      onlyWritten(
          part("id", Protocol::id, TEXT),
          part("version", protocol -> protocol.heading().version(), TEXT),
          part("digest", protocol -> protocol.heading().digest(), TEXT),
          part("title", protocol -> protocol.heading().title(), TEXT),
          part("language", protocol -> protocol.heading().language(), TEXT),
          part("ergometer", protocol -> protocol.heading().ergometer(), TEXT),
          part("purpose", protocol -> protocol.heading().purpose(), TEXT),
          part(
              "for",
              Protocol::eligibility,
              onlyWritten(
                  part("youngest", people -> people.youngest(), WHOLE),
                  part("oldest", people -> people.oldest(), WHOLE),
                  parts("needs", people -> people.needs().stream().sorted().toList(), TEXT),
                  part("why", people -> people.why(), TEXT))),
          part("longest", Protocol::longest, TIME),
          parts("settings", protocol -> all(protocol.settings()), SETTING),
          parts("signals", protocol -> all(protocol.instruments().signals()), SIGNAL),
          parts("scales", protocol -> all(protocol.instruments().scales()), SCALE),
          parts("signs", protocol -> all(protocol.instruments().signs()), SIGN),
          parts("questions", protocol -> all(protocol.instruments().questions()), QUESTION),
          parts(
              "loads",
              protocol -> all(protocol.instruments().loads()),
              onlyWritten(
                  part("name", LoadRange::name, TEXT),
                  part("range", LoadRange::range, RANGE),
                  part("source", LoadRange::source, CITATION))),
          parts(
              "before",
              Protocol::baselines,
              onlyWritten(
                  parts("signals", BaselineLine::signals, TEXT),
                  part("posture", BaselineLine::posture, POSTURE),
                  part("after", BaselineLine::after, TIME))),
          parts("measure", protocol -> protocol.schedule().lines(), MEASURE),
          parts(
              "cues",
              Protocol::cues,
              onlyWritten(
                  part("say", Cue::say, TEXT),
                  part("timing", Cue::timing, TIMING),
                  parts("in", Cue::in, TEXT))),
          parts("stages", Protocol::stages, STAGE),
          part(
              "rules",
              Protocol::rules,
              onlyWritten(
                  parts("before", book -> book.before(), RULE),
                  parts("anyTime", book -> book.anyTime(), RULE),
                  parts("stageEnd", book -> book.stageEnd(), RULE),
                  parts("recovery", book -> book.recovery(), RULE),
                  parts("result", book -> book.result(), RULE))),
          maybe(
              "recovery",
              Protocol::recovery,
              onlyWritten(
                  parts("stages", Recovery::stages, STAGE),
                  parts("measure", recovery -> recovery.schedule().lines(), MEASURE),
                  part("atMost", Recovery::atMost, TIME))),
          parts(
              "results",
              protocol -> protocol.assessment().lines(),
              onlyWritten(
                  part("id", EstimateLine::id, TEXT),
                  part("text", line -> line.formula().text(), TEXT),
                  part("assumes", EstimateLine::assumes, TEXT),
                  parts("cautions", EstimateLine::cautions, TEXT),
                  part("source", EstimateLine::source, CITATION))),
          parts("cautions", protocol -> protocol.heading().cautions(), TEXT),
          parts("sources", protocol -> protocol.heading().sources(), CITATION));

  static final Form<Outcome> OUTCOME =
      onlyWritten(
          part(
              "protocol",
              Outcome::protocol,
              onlyWritten(
                  part("id", Protocol::id, TEXT),
                  part("version", protocol -> protocol.heading().version(), TEXT),
                  part("digest", protocol -> protocol.heading().digest(), TEXT),
                  part("settings", ProtocolForm::values, Form.named(AMOUNT_OR_TEXT)))),
          part("person", Outcome::person, PersonForm.PERSON),
          part("phase", Outcome::phase, Form.words(Phase.class)),
          maybe("ending", Outcome::ending, Form.words(Ending.class)),
          part("stopped", Outcome::stopped, TRUTH),
          part("exerciseHasEnded", Outcome::exerciseHasEnded, TRUTH),
          part("needsClearance", Outcome::needsClearance, TRUTH),
          part("clearedAfterStop", Outcome::clearedAfterStop, TRUTH),
          parts("load", Outcome::load, ReadingForm.LOADING),
          parts(
              "stages",
              Outcome::stages,
              onlyWritten(
                  part("id", StageResult::id, TEXT),
                  part("start", StageResult::start, TIME),
                  part("lasted", StageResult::lasted, TIME),
                  parts("loads", StageResult::loads, ReadingForm.LOADING),
                  part("warmUp", StageResult::warmUp, TRUTH),
                  part("pause", StageResult::pause, TRUTH),
                  part("completed", StageResult::completed, TRUTH),
                  part("place", StageResult::place, WHOLE))));

  private ProtocolForm() {}

  private static <T> List<T> all(Map<String, T> things) {
    return new ArrayList<>(things.values());
  }

  private static Map<String, Object> values(Protocol protocol) {
    Map<String, Object> values = new LinkedHashMap<>();
    protocol.settings().forEach((name, setting) -> values.put(name, plain(setting.value())));
    return values;
  }

  private static Object plain(Setting.Value value) {
    return value instanceof Setting.Figure figure ? figure.quantity() : value.toString();
  }

  // A load in figures keeps the number and unit that the file has.
  private static Object written(Formula formula) {
    Optional<Quantity> figure =
        formula.demands().isEmpty()
            ? RuleText.quantity(Span.all("load", formula.text()), new Problems())
            : Optional.empty();
    return figure.isPresent() ? figure.get() : formula.text();
  }

  private static String when(Timing timing) {
    return timing.match(each -> "each", at -> "at", before -> "before_end", done -> "when_done");
  }

  private static Map<String, Form.Parts<? extends Timing>> timings() {
    Map<String, Form.Parts<? extends Timing>> forms = new LinkedHashMap<>();
    forms.put(
        "each",
        Form.<Timing.Each>onlyWritten(
            part("every", Timing.Each::every, TIME), part("from", Timing.Each::from, TIME)));
    forms.put("at", Form.<Timing.At>onlyWritten(part("time", Timing.At::time, TIME)));
    forms.put(
        "before_end",
        Form.<Timing.BeforeEnd>onlyWritten(part("lead", Timing.BeforeEnd::lead, TIME)));
    forms.put("when_done", Form.<Timing.WhenDone>onlyWritten());
    return forms;
  }
}
