package org.gradus.library;

import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.internal.LibraryKey;
import org.gradus.knowledge.Citation;
import org.gradus.library.Names.Known;
import org.gradus.protocol.Assessment;
import org.gradus.protocol.Cue;
import org.gradus.protocol.Eligibility;
import org.gradus.protocol.Ergometer;
import org.gradus.protocol.Heading;
import org.gradus.protocol.Instruments;
import org.gradus.protocol.LoadComponent;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Question;
import org.gradus.protocol.Recovery;
import org.gradus.protocol.RuleBook;
import org.gradus.protocol.Schedule;
import org.gradus.protocol.Setting;
import org.gradus.protocol.Stage;
import org.gradus.protocol.Unmeasured;
import org.gradus.protocol.Wiring;
import org.gradus.rule.Condition;
import org.gradus.rule.Formula;
import org.gradus.rule.Rule;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Layout;
import org.gradus.rule.check.Symbol;
import org.gradus.rule.check.Vocabulary;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;

/** Makes a protocol of a draft whose includes are resolved: checks every text and plans it. */
final class Assembly {

  private static final Unmeasured NINETY_SECONDS = new Unmeasured(Duration.ofSeconds(90), false);

  private final Draft draft;
  private final Shelf shelf;
  private final Problems problems;
  private final Map<String, Setting> settings;
  private final Layout.Builder layout = new Layout.Builder();
  private final Known known;
  private final PlannedValues values;

  private Assembly(Draft draft, Shelf shelf, Map<String, Setting> settings, Problems problems) {
    this.draft = draft;
    this.shelf = shelf;
    this.problems = problems;
    this.settings = settings;
    this.known = Names.of(draft, shelf, settings, SettingSymbols::fixed, layout, problems);
    this.values = new PlannedValues(draft, known.vocabulary(), layout, problems);
  }

  /** The protocol, or nothing when something is wrong, which has then been noted. */
  static Optional<Protocol> of(Draft draft, Shelf shelf, Problems problems) {
    Map<String, Setting> settings = new LinkedHashMap<>();
    draft.settings.forEach((name, placed) -> settings.put(name, placed.value()));
    return of(draft, shelf, settings, problems);
  }

  private static Optional<Protocol> of(
      Draft draft, Shelf shelf, Map<String, Setting> settings, Problems problems) {
    Problems found = new Problems();
    Protocol protocol = new Assembly(draft, shelf, settings, found).assemble();
    boolean measured = new Measuring(draft, found).check();
    Guarantees.check(draft, protocol, measured, found);
    new LoadLimits(draft, shelf, protocol, found).check();
    new LoadChanges(draft, protocol, found).check();
    found.sorted().forEach(problems::add);
    return draft.isWhole() && found.isEmpty() ? Optional.of(protocol) : Optional.empty();
  }

  private Protocol assemble() {
    List<Stage> stages = stages(draft.stages);
    RuleBook rules =
        new RuleBook(
            rules(draft.before),
            rules(draft.anyTime),
            rules(draft.stageEnd),
            rules(draft.recovery.map(RecoveryDraft::rules).orElse(List.of())),
            results());
    uniqueRules();
    ReadIn readIn = new ReadIn(draft, problems);
    Schedule schedule = schedule(draft.measure, line -> readIn.stages(line.in()));
    Optional<Recovery> recovery =
        draft.recovery.map(
            r ->
                new Recovery(
                    stages(r.stages()), schedule(r.measure(), this::afterwards), r.atMost()));
    Estimates estimates = new Estimates(draft, shelf, known.vocabulary(), layout, problems);
    estimates.checkHeadline();
    Assessment assessment =
        new Assessment(
            estimates.costs(),
            estimates.uptake(),
            estimates.maxHeartRate(),
            estimates.lines(),
            estimates.results(),
            estimates.headline(),
            List.copyOf(shelf.spreads.values()),
            List.copyOf(shelf.repeats.values()),
            Optional.ofNullable(shelf.results.get(Names.VO2MAX)),
            shelf.lineRise,
            replaced());
    Map<String, Formula> axes = estimates.axes(assessment.lines());
    Instruments instruments = instruments();
    Map<String, Condition> counted = counted();
    Wiring wiring =
        new Wiring(layout.build(), known.facts(), axes, counted, citations(), spreads());
    return new Protocol(
        LibraryKey.KEY,
        heading(schedule, recovery),
        eligibility(),
        settings,
        instruments,
        draft.baselines.stream().map(BaselineDraft::line).toList(),
        schedule,
        cues(readIn),
        stages,
        rules,
        draft.unmeasured.orElse(NINETY_SECONDS),
        recovery,
        assessment,
        draft.brake,
        wiring,
        NotesReader.notes(draft, shelf, problems),
        this::remake);
  }

  // A definition that is counted is asked at the end of every stage.
  private Map<String, Condition> counted() {
    Map<String, Condition> counted = new LinkedHashMap<>();
    for (Demand demand : layout.build().demands()) {
      if (demand.aspect() == Demand.Aspect.COUNT) {
        Expression name = new Expression.Reference(draft.header.where(), demand.subject());
        Condition.of(name, known.vocabulary(), layout, problems)
            .ifPresent(condition -> counted.put(demand.subject(), condition));
      }
    }
    return counted;
  }

  private Protocol remake(Map<String, Setting.Value> values) {
    Map<String, Setting> changed = new LinkedHashMap<>();
    settings.forEach(
        (name, setting) ->
            changed.put(name, setting.withValue(values.getOrDefault(name, setting.value()))));
    Problems found = new Problems();
    Optional<Protocol> protocol = of(draft, shelf, changed, found);
    found.throwIfAny();
    return protocol.orElseThrow();
  }

  private Heading heading(Schedule schedule, Optional<Recovery> recovery) {
    Header header = draft.header;
    return new Heading(
        header.id(),
        header.version(),
        header.title(),
        ProtocolMeaning.of(draft, shelf, settings, schedule, recovery.map(Recovery::schedule)),
        header.language(),
        draft.ergometer,
        draft.purpose,
        draft.sources.stream().distinct().toList(),
        draft.cautions);
  }

  private Eligibility eligibility() {
    if (draft.eligibility.isEmpty() && draft.isWhole("for")) {
      problems.add(draft.header.where(), Code.G303, "the protocol", "for");
    }
    return draft.eligibility.orElse(new Eligibility(0, 0, Set.of(), Eligibility.Outside.DEFER, ""));
  }

  private List<ProtocolRule> rules(List<RuleDraft> drafts) {
    return rules(drafts, known.vocabulary());
  }

  // They may speak of what comes out, too.
  private List<ProtocolRule> results() {
    Type uptake = new Type.Measure(Kind.UPTAKE);
    Symbol capacity = new Symbol.Datum(Demand.value(Names.VO2MAX, uptake), Symbol.Role.FACT);
    Vocabulary vocabulary = known.vocabulary().with(Names.VO2MAX, capacity);
    for (EstimateDraft result : draft.results) {
      Type type = new Type.Measure(result.shown().orElseThrow().unit().kind());
      vocabulary =
          vocabulary.with(
              result.id(), new Symbol.Datum(Demand.value(result.id(), type), Symbol.Role.FACT));
    }
    return rules(draft.result, vocabulary);
  }

  private List<ProtocolRule> rules(List<RuleDraft> drafts, Vocabulary vocabulary) {
    List<ProtocolRule> rules = new ArrayList<>();
    for (RuleDraft rule : drafts) {
      rule.sentence()
          .flatMap(text -> Rule.of(text, vocabulary, layout, problems))
          .ifPresent(
              planned ->
                  rules.add(
                      new ProtocolRule(
                          rule.id(),
                          planned,
                          rule.why(),
                          rule.instruction(),
                          rule.source(),
                          rule.confirm(),
                          rule.stagesOnly(),
                          rule.then(),
                          rule.alarming(),
                          rule.suspicion())));
    }
    return rules;
  }

  private void uniqueRules() {
    Map<String, Span> ids = new HashMap<>();
    for (RuleDraft rule : draft.rules()) {
      // The stages of a block have their rules in common, each written once.
      Span other = ids.putIfAbsent(rule.id(), rule.where());
      if (other != null && !other.equals(rule.where())) {
        problems.add(rule.where(), Code.G306, "the rule id " + rule.id());
      }
    }
  }

  private List<Stage> stages(List<StageDraft> drafts) {
    List<Stage> stages = new ArrayList<>();
    Set<String> ids = new HashSet<>();
    // The rounds of a block have the same rules: one that can hold in some round can hold.
    IdentityHashMap<List<RuleDraft>, List<ProtocolRule>> own = new IdentityHashMap<>();
    for (StageDraft stage : drafts) {
      if (!ids.add(stage.id()) && !stage.id().isEmpty()) {
        problems.add(stage.where(), Code.G306, "the stage " + stage.id());
      }
      stages.add(
          new Stage(
              stage.id(),
              stages.size(),
              stage.lasts(),
              stage.untilDone(),
              values.loads(stage),
              stage.posture(),
              stage.warmUp(),
              stage.ownRules().map(rules -> own.computeIfAbsent(rules, this::rules)),
              stage.source(),
              stage.pause(),
              stage.round().map(StageDraft.RoundDraft::round)));
    }
    return stages;
  }

  // One that is due in no stage at all, since what it is about is not read there, is left out.
  private List<Cue> cues(ReadIn readIn) {
    List<Cue> cues = new ArrayList<>();
    for (CueDraft cue : draft.cues) {
      List<String> in = readIn.stages(cue.in());
      if (cue.in().isEmpty() || !in.isEmpty()) {
        cues.add(new Cue(cue.say(), cue.timing(), in));
      }
    }
    return cues;
  }

  private Schedule schedule(List<MeasureDraft> lines, Function<MeasureDraft, List<String>> stages) {
    List<MeasureLine> complete = new ArrayList<>();
    for (MeasureDraft draft : lines) {
      MeasureLine line = draft.with(this::time);
      draft.fits(line, this::tooLong);
      complete.add(line.in(stages.apply(draft)));
    }
    return new Schedule(complete);
  }

  private void tooLong(YamlNode.Scalar written, String limit) {
    String help =
        settings.containsKey(written.value())
            ? "give the setting a shorter time"
            : "check the unit and the digits";
    problems.add(written.span(), Code.G305, written.value(), "within " + limit, help);
  }

  private List<String> afterwards(MeasureDraft line) {
    line.in()
        .forEach(
            name ->
                problems.add(
                    name.span(), Code.G302, "in", "a line of recovery", "read it all along"));
    return List.of();
  }

  private Optional<Duration> time(YamlNode.Scalar name) {
    Setting setting = settings.get(name.value());
    if (setting != null
        && setting.value() instanceof Setting.Figure figure
        && figure.quantity().kind() == Kind.TIME
        && figure.quantity().amount() >= 0) {
      return Optional.of(Duration.ofMillis(Math.round(figure.quantity().base() * 1000)));
    }
    if (!draft.faulty.contains(name.value()) && !draft.torn) {
      problems.add(
          name.span(), Code.G305, name.value(), "a time", "write 15 s, or the name of a setting");
    }
    return Optional.empty();
  }

  private Instruments instruments() {
    Map<String, Question> questions = new LinkedHashMap<>();
    draft.questions.forEach(
        (name, placed) -> questions.put(name, values.question(name, placed.value())));
    return new Instruments(
        values(draft.signals),
        values(draft.scales),
        values(draft.signs),
        questions,
        values(draft.loads),
        components(),
        ergometer());
  }

  private Map<String, LoadComponent> components() {
    Map<String, LoadComponent> components = new LinkedHashMap<>();
    for (Placed<Equipment.Load> load : shelf.equipment.declarations(draft)) {
      components.put(load.value().component().name(), load.value().component());
    }
    return components;
  }

  // One that could not be read has been reported; nothing rests on it then.
  private Ergometer ergometer() {
    Optional<Ergometer> declared =
        Optional.ofNullable(shelf.equipment.ergometers().get(draft.ergometer)).map(Placed::value);
    declared.ifPresent(this::canSet);
    return declared.orElse(
        new Ergometer(
            draft.ergometer, draft.ergometer, List.of(), Optional.empty(), false, Citation.NONE));
  }

  private void canSet(Ergometer ergometer) {
    for (StageDraft.LoadDraft load : Equipment.setIn(draft)) {
      if (!ergometer.loads().isEmpty() && !ergometer.loads().contains(load.name())) {
        problems.add(
            load.value().span(),
            Code.G305,
            load.name().replace('_', ' '),
            "a load of " + ergometer.id(),
            "its loads are " + String.join(", ", ergometer.loads()));
      }
    }
  }

  private static <T> Map<String, T> values(Map<String, Placed<T>> placed) {
    Map<String, T> values = new LinkedHashMap<>();
    placed.forEach((name, there) -> values.put(name, there.value()));
    return values;
  }

  private Map<String, Quantity> spreads() {
    Map<String, Quantity> spreads = new HashMap<>();
    shelf.costs.forEach((name, cost) -> cost.spread().ifPresent(sd -> spreads.put(name, sd)));
    shelf.maxHeartRates.values().forEach(rate -> spreads.put(rate.title(), rate.spread()));
    return spreads;
  }

  private Map<String, Citation> citations() {
    Map<String, Citation> citations = new HashMap<>();
    settings.forEach((name, setting) -> citations.put(name, setting.source()));
    draft.defines.forEach((name, placed) -> citations.put(name, placed.value().source()));
    shelf.costs.forEach((name, equation) -> citations.put(name, equation.source()));
    shelf.maxHeartRates.values().forEach(rate -> citations.put(rate.title(), rate.source()));
    return citations;
  }

  // Of the equations that this protocol may choose.
  private Map<String, String> replaced() {
    Map<String, String> replaced = new LinkedHashMap<>();
    draft.maxHeartRate.stream()
        .flatMap(line -> Optional.ofNullable(shelf.maxHeartRates.get(line.name().text())).stream())
        .forEach(rate -> rate.replaces().forEach(old -> replaced.put(old, rate.id())));
    return replaced;
  }
}
