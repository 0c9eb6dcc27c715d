package org.gradus.history;

import static org.gradus.history.Form.QUANTITY;
import static org.gradus.history.Form.TEXT;
import static org.gradus.history.Form.TIME;
import static org.gradus.history.Form.TRUTH;
import static org.gradus.history.Form.WHOLE;
import static org.gradus.history.Form.maybe;
import static org.gradus.history.Form.part;
import static org.gradus.history.Form.parts;
import static org.gradus.history.Form.whole;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.gradus.protocol.Posture;
import org.gradus.protocol.Sign;
import org.gradus.session.Agenda;
import org.gradus.session.Decision;
import org.gradus.session.Firmness;
import org.gradus.session.Hindsight;
import org.gradus.session.Phase;
import org.gradus.session.Verdict;
import org.gradus.unit.Kind;
import org.gradus.unit.QuantityRange;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;

/** Decisions and agendas as JSON. */
final class DecisionForm {

  private static final Form<Kind> KIND = Form.words(Kind.class);

  static final Form<Unit> UNIT = Form.words(Arrays.asList(Unit.values()), Unit::symbol);

  static final Form<Type> TYPE = Form.oneOf("is", DecisionForm::type, types(), "is no type");

  static final Form<QuantityRange> RANGE =
      whole(
          got -> new QuantityRange(got.at(0), got.at(1)),
          part("low", QuantityRange::low, QUANTITY),
          part("high", QuantityRange::high, QUANTITY));

  static final Form<Posture> POSTURE = Form.words(Arrays.asList(Posture.values()), Posture::word);

  private static final Form<Agenda.ToRead> TO_READ =
      whole(
          got -> new Agenda.ToRead(got.at(0), got.at(1), got.at(2), got.at(3), got.at(4)),
          part("signal", Agenda.ToRead::signal, TEXT),
          maybe("before", Agenda.ToRead::before, POSTURE),
          part("type", Agenda.ToRead::type, TYPE),
          maybe("unit", Agenda.ToRead::unit, UNIT),
          parts("scales", Agenda.ToRead::scales, TEXT));

  private static final Form<Agenda.Item> ITEM =
      whole(
          got -> new Agenda.Item(got.at(0), got.at(1), got.at(2), got.at(3), got.at(4)),
          parts("readings", Agenda.Item::readings, TO_READ),
          part("begin", Agenda.Item::begin, TIME),
          part("due", Agenda.Item::due, TIME),
          part("state", Agenda.Item::state, Form.words(Agenda.State.class)),
          maybe("posture", Agenda.Item::posture, TEXT));

  static final Form<Sign> SIGN =
      whole(
          got -> new Sign(got.at(0), got.at(1), got.at(2), top(got.at(3)), got.at(4)),
          part("name", Sign::name, TEXT),
          part("prompt", Sign::prompt, TEXT),
          part("asked", Sign::asked, TRUTH),
          maybe(
              "top",
              sign ->
                  sign.top().isPresent() ? Optional.of(sign.top().getAsInt()) : Optional.empty(),
              WHOLE),
          part("lasts", Sign::lasts, TRUTH));

  private static final Form<Agenda.Ask> ASK =
      whole(
          got ->
              new Agenda.Ask(
                  got.at(0), got.at(1), got.at(2), got.at(3), got.at(4), got.at(5), got.at(6)),
          part("name", Agenda.Ask::name, TEXT),
          part("prompt", Agenda.Ask::prompt, TEXT),
          part("needed", Agenda.Ask::needed, TRUTH),
          part("type", Agenda.Ask::type, TYPE),
          maybe("unit", Agenda.Ask::unit, UNIT),
          maybe("range", Agenda.Ask::range, RANGE),
          parts("options", Agenda.Ask::options, QUANTITY));

  static final Form<Agenda> AGENDA =
      whole(
          got ->
              new Agenda(
                  got.at(0), got.at(1), got.at(2), got.at(3), got.at(4), got.at(5), got.at(6),
                  got.at(7), got.at(8)),
          parts("items", Agenda::items, ITEM),
          parts("questions", Agenda::questions, SIGN),
          parts(
              "cues",
              Agenda::cues,
              whole(
                  got -> new Agenda.Reminder(got.at(0), got.at(1)),
                  part("at", Agenda.Reminder::at, TIME),
                  part("say", Agenda.Reminder::say, TEXT))),
          parts("asks", Agenda::asks, ASK),
          parts("load", Agenda::load, ReadingForm.LOADING),
          maybe("posture", Agenda::posture, TEXT),
          maybe(
              "next",
              Agenda::next,
              whole(
                  got -> new Agenda.Change(got.at(0), got.at(1)),
                  part("at", Agenda.Change::at, TIME),
                  parts("load", Agenda.Change::load, ReadingForm.LOADING))),
          parts(
              "symptoms",
              Agenda::symptoms,
              whole(
                  got -> new Agenda.Symptom(got.at(0), got.at(1)),
                  part("sign", Agenda.Symptom::sign, TEXT),
                  part("prompt", Agenda.Symptom::prompt, TEXT))),
          maybe(
              "whenDone",
              Agenda::whenDone,
              whole(
                  got -> new Agenda.WhenDone(got.at(0)),
                  parts("readings", Agenda.WhenDone::readings, TO_READ))));

  static final Form<Hindsight> HINDSIGHT =
      whole(
          got -> new Hindsight(got.at(0), got.at(1), got.at(2)),
          part("event", Hindsight::event, WHOLE),
          part("then", Hindsight::then, TEXT),
          part("now", Hindsight::now, TEXT));

  static final Form<Decision> DECISION =
      whole(
          DecisionForm::decision,
          part("at", Decision::at, TIME),
          part(
              "kind", Decision::kind, Form.words(Arrays.asList(Verdict.Kind.values()), Enum::name)),
          part("phase", Decision::phase, Form.words(Phase.class)),
          maybe("stage", Decision::stage, TEXT),
          part("verdict", Decision::verdict, VerdictForm.ANY),
          maybe("because", Decision::because, ReasonForm.BECAUSE),
          parts("couldFlip", decision -> decision.firmness().couldFlip(), TEXT),
          parts(
              "offers",
              Decision::offers,
              whole(
                  got -> new Decision.Offer(got.at(0), got.at(1)),
                  part("verdict", Decision.Offer::verdict, VerdictForm.ANY),
                  part("because", Decision.Offer::because, ReasonForm.BECAUSE))),
          parts("cautions", Decision::cautions, ReasonForm.BECAUSE),
          parts(
              "unchecked",
              Decision::unchecked,
              whole(
                  got -> new Decision.Unchecked(got.at(0), got.at(1)),
                  part("rule", Decision.Unchecked::rule, TEXT),
                  parts("gaps", Decision.Unchecked::gaps, ReasonForm.GAP))),
          part("agenda", Decision::agenda, AGENDA),
          part("event", Decision::event, WHOLE),
          parts("hindsight", Decision::hindsight, HINDSIGHT),
          maybe("changesAt", Decision::changesAt, TIME));

  private DecisionForm() {}

  private static Decision decision(Form.Got got) {
    Verdict verdict = got.at(4);
    if (verdict.kind() != got.<Verdict.Kind>at(1)) {
      throw got.from().unreadable("kind", "is not that of the verdict, " + verdict.kind());
    }
    return new Decision(
        got.at(0),
        got.at(2),
        got.at(3),
        verdict,
        got.at(5),
        new Firmness(got.at(6)),
        got.at(7),
        got.at(8),
        got.at(9),
        got.at(10),
        got.at(11),
        got.at(12),
        got.at(13));
  }

  private static OptionalInt top(Optional<Integer> top) {
    return top.isPresent() ? OptionalInt.of(top.get()) : OptionalInt.empty();
  }

  private static String type(Type type) {
    return type.match(measure -> "measure", condition -> "condition", choice -> "choice");
  }

  private static Map<String, Form.Parts<? extends Type>> types() {
    Map<String, Form.Parts<? extends Type>> types = new LinkedHashMap<>();
    types.put(
        "measure",
        whole(got -> new Type.Measure(got.at(0)), part("kind", Type.Measure::kind, KIND)));
    types.put("condition", whole(got -> new Type.Condition()));
    types.put(
        "choice",
        whole(
            got -> new Type.Choice(got.<List<String>>at(0)),
            parts("options", Type.Choice::options, TEXT)));
    return types;
  }
}
