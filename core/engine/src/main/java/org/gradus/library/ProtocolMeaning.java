package org.gradus.library;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.gradus.knowledge.CostEquation;
import org.gradus.knowledge.MaxHeartRate;
import org.gradus.knowledge.ModelError;
import org.gradus.protocol.Fingerprint;
import org.gradus.protocol.LoadComponent;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Schedule;
import org.gradus.protocol.Setting;
import org.gradus.protocol.Sign;
import org.gradus.protocol.Timing;
import org.gradus.rule.check.Table;
import org.gradus.rule.syntax.ChoiceLine;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Type;

/**
 * What a protocol means, item by item: everything that a decision or a result can depend on, and of
 * definitions, tables and equations what the protocol uses. Words for people, citations and notes
 * to reviewers mean nothing here. A key of a file that is read must be told here or be one of those
 * words; a test changes each of them.
 */
final class ProtocolMeaning {

  private static final int LONGEST_NAME = 200;

  private final Draft draft;
  private final Shelf shelf;
  private final Map<String, String> items = new LinkedHashMap<>();
  private final List<String> words = new ArrayList<>();

  private ProtocolMeaning(Draft draft, Shelf shelf) {
    this.draft = draft;
    this.shelf = shelf;
  }

  /**
   * The fingerprint of a protocol.
   *
   * @param draft the protocol with what it includes
   * @param settings its settings with the values they have now
   * @param schedule what is read in the stages, with the times that settings give
   * @param recovery what is read in recovery
   */
  static Fingerprint of(
      Draft draft,
      Shelf shelf,
      Map<String, Setting> settings,
      Schedule schedule,
      Optional<Schedule> recovery) {
    ProtocolMeaning meaning = new ProtocolMeaning(draft, shelf);
    meaning.heading();
    meaning.settings(settings);
    meaning.instruments();
    meaning.readings(schedule, recovery);
    meaning.stages("", "stages", draft.stages);
    meaning.rules("before", draft.before);
    meaning.rules("any_time", draft.anyTime);
    meaning.rules("stage_end", draft.stageEnd);
    meaning.rules("result", draft.result);
    meaning.recovery();
    meaning.results();
    meaning.used();
    return Fingerprint.of(meaning.items, meaning.words);
  }

  private void item(String name, Object... values) {
    String called = name.length() > LONGEST_NAME ? name.substring(0, LONGEST_NAME) : name;
    String free = called;
    for (int i = 2; items.containsKey(free); i++) {
      free = called + " (" + i + ")";
    }
    items.put(free, Canonical.text(values));
  }

  private void heading() {
    words.addAll(List.of(draft.header.title(), draft.header.language()));
    words.addAll(draft.cautions);
    draft.sources.forEach(source -> words.add(source.text()));
    item("ergometer", draft.ergometer);
    equipment();
    item("purpose", draft.purpose);
    draft.eligibility.ifPresent(
        who -> {
          item(
              "for",
              who.youngest(),
              who.oldest(),
              who.needs().stream().sorted().toList(),
              who.outside());
          words.add(who.why());
        });
    draft.unmeasured.ifPresent(missing -> item("unmeasured", missing.atMost(), missing.thenStop()));
    draft.brake.ifPresent(brake -> item("brake", brake.travel()));
  }

  // What the engine itself declares is the same in every library.
  private void equipment() {
    Equipment equipment = shelf.equipment;
    Optional.ofNullable(equipment.ergometers().get(draft.ergometer))
        .filter(declared -> !equipment.isStandard(declared))
        .map(Placed::value)
        .ifPresent(
            on -> {
              item("ergometer " + on.id(), on.loads(), on.posture(), on.carriesBodyMass());
              words.add(on.title());
            });
    for (Placed<Equipment.Load> load : equipment.declarations(draft)) {
      if (!equipment.isStandard(load)) {
        LoadComponent component = load.value().component();
        item("load " + component.name(), component.unit().symbol());
        words.add(component.title());
      }
    }
  }

  private void settings(Map<String, Setting> settings) {
    settings.forEach(
        (name, setting) -> {
          Setting declared =
              Optional.ofNullable(draft.settings.get(name)).map(Placed::value).orElse(setting);
          item(
              "setting " + name,
              value(declared.value()),
              value(setting.value()),
              setting.range(),
              setting.options().stream().map(option -> value(option.value())).toList());
        });
  }

  private static Object value(Setting.Value value) {
    return value instanceof Setting.Figure figure ? figure.quantity() : value.toString();
  }

  private void instruments() {
    draft.signals.forEach(
        (name, placed) -> {
          var signal = placed.value();
          item("signal " + name, signal.type(), signal.range(), signal.step(), signal.below());
        });
    draft.scales.forEach(
        (name, placed) -> {
          var scale = placed.value();
          item("scale " + name, scale.of(), scale.low(), scale.high(), scale.step());
        });
    draft.signs.forEach((name, placed) -> sign(name, placed.value()));
    draft.loads.forEach((name, placed) -> item("range of " + name, placed.value().range()));
    draft.questions.forEach((name, placed) -> question(name, placed.value()));
  }

  private void sign(String name, Sign sign) {
    item("sign " + name, sign.asked(), sign.top(), sign.lasts());
    words.add(sign.prompt());
  }

  private void question(String name, Draft.Ask ask) {
    List<Object> options = new ArrayList<>();
    ask.options().forEach(option -> options.add(List.of(option.value(), option.when())));
    item("input " + name, ask.type(), ask.range(), options, ask.fallback(), ask.unless());
    words.add(ask.prompt());
  }

  private void readings(Schedule schedule, Optional<Schedule> recovery) {
    for (BaselineDraft baseline : draft.baselines) {
      var line = baseline.line();
      item(
          "before " + String.join(", ", line.signals()),
          line.posture(),
          line.placed(),
          line.after());
    }
    measure("", schedule);
    recovery.ifPresent(lines -> measure("recovery.", lines));
    for (CueDraft cue : draft.cues) {
      item("cue", timing(cue.timing()));
      if (!cue.in().isEmpty()) {
        item("stages of cue", cue.in().stream().map(YamlNode.Scalar::value).toList());
      }
      words.add(cue.say());
    }
  }

  private void measure(String where, Schedule schedule) {
    List<String> order = new ArrayList<>();
    for (MeasureLine line : schedule.lines()) {
      String signals = String.join(", ", line.signals());
      order.add(signals);
      item(
          where + "measure " + signals,
          timing(line.timing()),
          line.over(),
          line.takes(),
          line.within(),
          line.late(),
          line.validFor(),
          line.ifMissing(),
          line.scale(),
          line.named(),
          line.posture());
      if (!line.in().isEmpty()) {
        item(where + "stages of measure " + signals, line.in());
      }
    }
    item("order of " + where + "measure", order);
  }

  private static List<Object> timing(Timing timing) {
    return timing.match(
        each -> List.of("each", each.every(), each.from()),
        at -> List.of("at", at.time()),
        before -> List.of("before_end", before.lead()),
        done -> List.of("when_done"));
  }

  private void stages(String where, String list, List<StageDraft> stages) {
    item("order of " + list, stages.stream().map(StageDraft::id).toList());
    for (StageDraft stage : stages) {
      String id = where + stage.id();
      item(id + ".lasts", stage.lasts(), stage.untilDone());
      item(id + ".warm_up", stage.warmUp());
      if (stage.pause()) {
        item(id + ".pause", stage.pause());
      }
      stage
          .round()
          .map(StageDraft.RoundDraft::round)
          .ifPresent(round -> item(id + ".round", round.block(), round.number()));
      item(id + ".posture", stage.posture());
      item(id + ".load", stage.loads().stream().map(StageDraft.LoadDraft::name).toList());
      for (StageDraft.LoadDraft load : stage.loads()) {
        List<Object> ramp = new ArrayList<>();
        load.ramp().ifPresent(up -> ramp.addAll(List.of(up.step(), up.every(), up.to())));
        item(id + "." + load.name(), load.value(), ramp);
      }
      stage.ownRules().ifPresent(rules -> rules(id + ".stage_end", rules));
    }
  }

  private void rules(String list, List<RuleDraft> rules) {
    item("order of " + list, rules.stream().map(RuleDraft::id).toList());
    for (RuleDraft rule : rules) {
      List<Object> suspicion = new ArrayList<>();
      rule.suspicion().ifPresent(one -> suspicion.addAll(List.of(one.ingredient(), one.look())));
      item(
          "rule " + rule.id(),
          list,
          rule.sentence(),
          rule.confirm(),
          rule.stagesOnly(),
          rule.then(),
          rule.alarming(),
          suspicion);
      words.addAll(List.of(rule.why(), rule.instruction()));
    }
  }

  private void recovery() {
    draft.recovery.ifPresent(
        after -> {
          item("recovery.at_most", after.atMost());
          stages("recovery.", "recovery.stages", after.stages());
          rules("recovery", after.rules());
        });
  }

  private void results() {
    item("cost", draft.cost.stream().map(ProtocolMeaning::choice).toList());
    item("max_heart_rate", draft.maxHeartRate.stream().map(ProtocolMeaning::choice).toList());
    item("order of estimates", draft.estimates.stream().map(EstimateDraft::id).toList());
    draft.estimates.forEach(estimate -> worked("estimate " + estimate.id(), estimate));
    draft.results.forEach(this::result);
    draft.headline.ifPresent(first -> item("headline", first.value()));
    if (!draft.results.isEmpty()) {
      item("order of results", draft.results.stream().map(EstimateDraft::id).toList());
    }
    if (!draft.estimates.isEmpty() || !draft.results.isEmpty()) {
      Optional.ofNullable(shelf.results.get(Names.VO2MAX))
          .ifPresent(result -> item("result " + Names.VO2MAX, result.range()));
      shelf.lineRise.ifPresent(rise -> item("line_rise", rise.standardErrors()));
      shelf
          .repeats
          .values()
          .forEach(
              repeat -> {
                if (repeat.purpose().equals(draft.purpose)) {
                  item("repeat " + repeat.id(), repeat.sd());
                }
              });
      shelf
          .spreads
          .values()
          .forEach(
              spread -> {
                if (isRead(new Type.Measure(spread.of()))) {
                  item("spread " + spread.id(), spread.of(), spread.sd(), spread.per());
                }
              });
    }
  }

  private void worked(String item, EstimateDraft estimate) {
    List<Object> locals = new ArrayList<>();
    new TreeMap<>(estimate.locals())
        .forEach((name, body) -> locals.add(List.of(name, body.value())));
    List<Object> error = new ArrayList<>();
    estimate.error().ifPresent(found -> error.addAll(List.of(found.sd(), found.covers())));
    item(
        item,
        estimate.from(),
        estimate.onlyWhen(),
        locals,
        estimate.formula(),
        estimate.leastSpan(),
        estimate
            .model()
            .map(
                name ->
                    List.of(
                        name.value(),
                        Optional.ofNullable(shelf.models.get(name.value())).map(ModelError::sd))),
        error,
        estimate.secondLook());
    words.add(estimate.assumes());
    words.addAll(estimate.cautions());
  }

  private void result(EstimateDraft result) {
    EstimateDraft.ShownDraft shown = result.shown().orElseThrow();
    worked("results." + result.id(), result);
    item("unit of " + result.id(), shown.unit().symbol());
    words.add(shown.title());
    shown
        .reference()
        .ifPresent(
            expected ->
                item(
                    "reference of " + result.id(),
                    expected.value(),
                    expected.lower(),
                    expected.upper()));
    Optional.ofNullable(shelf.results.get(result.id()))
        .ifPresent(range -> item("result " + result.id(), range.range()));
  }

  private boolean isRead(Type type) {
    return draft.signals.values().stream().anyMatch(placed -> placed.value().type().equals(type));
  }

  private static List<Object> choice(ChoiceLine line) {
    return List.of(line.name().text(), line.when());
  }

  // What rules and formulas name, and what that names in turn.
  private void used() {
    Deque<Expression> open = new ArrayDeque<>(draft.expressionsInUse());
    Set<String> seen = new LinkedHashSet<>();
    draft.cost.forEach(line -> equation(line.name().text(), seen));
    draft.maxHeartRate.forEach(line -> equation(line.name().text(), seen));
    while (!open.isEmpty()) {
      Expression part = open.pop();
      part.parts().forEach(open::push);
      if (part instanceof Expression.Reference reference) {
        // stage.usable is usable at the end of a stage.
        String name = reference.name().substring(reference.name().lastIndexOf('.') + 1);
        Optional.ofNullable(draft.defines.get(name))
            .filter(define -> seen.add("define " + name))
            .ifPresent(
                define -> {
                  item("define " + name, define.value().body());
                  open.push(define.value().body());
                });
        Optional.ofNullable(draft.tables.get(name))
            .filter(table -> seen.add("table " + name))
            .ifPresent(table -> table(name, table.value().table()));
        if (!draft.defines.containsKey(name)) {
          equation(name, seen);
        }
      }
    }
  }

  private void table(String name, Table table) {
    item(
        "table " + name,
        table.of(),
        table.gives(),
        table.points(),
        table.between(),
        table.beyond());
  }

  private void equation(String name, Set<String> seen) {
    CostEquation cost = shelf.costs.get(name);
    if (cost != null && seen.add("cost " + name)) {
      item("equation " + name, cost.loads(), cost.uptake(), cost.range(), cost.spread());
    }
    MaxHeartRate rate = shelf.maxHeartRates.get(name);
    if (rate != null && seen.add("rate " + name)) {
      item("maximal heart rate " + name, rate.rate(), rate.spread(), rate.onlyWhen());
    }
  }
}
