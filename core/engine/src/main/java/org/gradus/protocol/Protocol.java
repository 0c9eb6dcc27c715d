package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.SettingRefused;
import org.gradus.diagnostic.Span;
import org.gradus.diagnostic.Suggestion;
import org.gradus.internal.LibraryKey;
import org.gradus.rule.check.Demand;
import org.gradus.rule.syntax.RuleText;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;

/**
 * A test protocol as it was loaded: checked, total and finite. Immutable; shared freely between
 * threads.
 *
 * <p>Gradus advises a trained person who decides. It is no medical device: medical clearance, an
 * emergency plan, local rules and licensed practice come before anything a protocol says.
 *
 * <p>A library alone makes protocols, so that nobody gets one that is not proved.
 */
public final class Protocol {

  private final Heading heading;
  private final Eligibility eligibility;
  private final Map<String, Setting> settings;
  private final Instruments instruments;
  private final List<BaselineLine> baselines;
  private final Schedule schedule;
  private final Map<String, Schedule> byStage = new HashMap<>();
  private final List<Cue> cues;
  private final List<Stage> stages;
  private final RuleBook rules;
  private final Unmeasured unmeasured;
  private final Optional<Recovery> recovery;
  private final Assessment assessment;
  private final Optional<Brake> brake;
  private final Wiring wiring;
  private final AuthorNotes notes;
  private final Function<Map<String, Setting.Value>, Protocol> remake;

  /**
   * For the library, which checks and proves what it makes before it hands it out.
   *
   * @param key in a package that is not exported, so that hosts have none
   * @param remake makes the same protocol with other settings
   */
  @SuppressWarnings("exports")
  public Protocol(
      LibraryKey key,
      Heading heading,
      Eligibility eligibility,
      Map<String, Setting> settings,
      Instruments instruments,
      List<BaselineLine> baselines,
      Schedule schedule,
      List<Cue> cues,
      List<Stage> stages,
      RuleBook rules,
      Unmeasured unmeasured,
      Optional<Recovery> recovery,
      Assessment assessment,
      Optional<Brake> brake,
      Wiring wiring,
      AuthorNotes notes,
      Function<Map<String, Setting.Value>, Protocol> remake) {
    Objects.requireNonNull(key, "only a library makes a protocol");
    this.heading = heading;
    this.eligibility = eligibility;
    this.settings = Collections.unmodifiableMap(new LinkedHashMap<>(settings));
    this.instruments = instruments;
    this.baselines = List.copyOf(baselines);
    this.schedule = schedule;
    stages.forEach(stage -> byStage.put(stage.id(), schedule.in(stage.id())));
    this.cues = List.copyOf(cues);
    this.stages = List.copyOf(stages);
    this.rules = rules;
    this.unmeasured = unmeasured;
    this.recovery = recovery;
    this.assessment = assessment;
    this.brake = brake;
    this.wiring = wiring;
    this.notes = notes;
    this.remake = remake;
  }

  /** What it is. */
  public Heading heading() {
    return heading;
  }

  /** Whom it is for. */
  public Eligibility eligibility() {
    return eligibility;
  }

  /** The figures and words that may be changed, by name. */
  public Map<String, Setting> settings() {
    return settings;
  }

  /** What can be told to a test. */
  public Instruments instruments() {
    return instruments;
  }

  /** What is read before the first stage. */
  public List<BaselineLine> baselines() {
    return baselines;
  }

  /** What is read in the stages. */
  public Schedule schedule() {
    return schedule;
  }

  /** What is read in one of its stages, in order of precedence. */
  public Schedule schedule(Stage stage) {
    return byStage.getOrDefault(stage.id(), schedule);
  }

  /** What the tester is reminded of in each stage. */
  public List<Cue> cues() {
    return cues;
  }

  /** The stages in order. */
  public List<Stage> stages() {
    return stages;
  }

  /** The rules. */
  public RuleBook rules() {
    return rules;
  }

  /** What happens when readings stay missing. */
  public Unmeasured unmeasured() {
    return unmeasured;
  }

  /** What follows the exercise, if the file says so. */
  public Optional<Recovery> recovery() {
    return recovery;
  }

  /** How the result is worked out. */
  public Assessment assessment() {
    return assessment;
  }

  /** How the cycle is braked, where a force has to be set for a power. */
  public Optional<Brake> brake() {
    return brake;
  }

  /** How rules get their values; for Gradus's own modules, may change with any version. */
  public Wiring wiring() {
    return wiring;
  }

  /** What the files say to a reviewer. */
  public AuthorNotes notes() {
    return notes;
  }

  /** The id: {@code graded-walk-standard}. */
  public String id() {
    return heading.id();
  }

  /** The stage of an id, if there is one. */
  public Optional<Stage> stage(String id) {
    requireNonNull(id, "id");
    return stages.stream().filter(stage -> stage.id().equals(id)).findFirst();
  }

  /** The rules that are looked at when a stage is due to end. */
  public List<ProtocolRule> rulesAtEndOf(Stage stage) {
    return stage.ownRules().orElse(rules.stageEnd());
  }

  /**
   * This protocol with a setting changed, checked like the file itself.
   *
   * <pre>{@code
   * Protocol stricter = walk.with("steady_band", bpm(4));
   * }</pre>
   *
   * @throws SettingRefused when there is no such setting or the file does not allow the value
   * @throws org.gradus.diagnostic.FileRefused when a rule no longer makes sense with the value: it
   *     can never hold, say
   */
  public Protocol with(String setting, Quantity value) {
    requireNonNull(setting, "setting");
    requireNonNull(value, "value");
    return changed(setting, new Setting.Figure(value));
  }

  /**
   * This protocol with a setting changed to another of its words.
   *
   * @throws SettingRefused when there is no such setting or the file does not offer the word
   * @throws org.gradus.diagnostic.FileRefused when a rule no longer makes sense with the word
   */
  public Protocol with(String setting, String word) {
    requireNonNull(setting, "setting");
    requireNonNull(word, "word");
    return changed(setting, new Setting.Word(word));
  }

  /**
   * This protocol with a setting changed to what somebody wrote: an amount with its unit, such as
   * {@code 6 bpm}, or one of the words that the file offers.
   *
   * @throws SettingRefused when there is no such setting, the text is no amount where one is
   *     needed, or the file does not allow the value
   * @throws org.gradus.diagnostic.FileRefused when a rule no longer makes sense with the value
   */
  public Protocol withWritten(String setting, String text) {
    requireNonNull(setting, "setting");
    requireNonNull(text, "text");
    Setting known = settings.get(setting);
    if (known == null || known.value() instanceof Setting.Word) {
      return with(setting, text);
    }
    Quantity quantity =
        RuleText.quantity(Span.all(setting, text), new Problems())
            .orElseThrow(
                () ->
                    new SettingRefused(
                        Code.G603,
                        setting,
                        text,
                        "write an amount with its unit; the file allows " + known.allowed()));
    return with(setting, quantity);
  }

  private Protocol changed(String name, Setting.Value value) {
    Setting setting = settings.get(name);
    if (setting == null) {
      String help =
          Suggestion.help(
              name, settings.keySet(), "the settings are " + String.join(", ", settings.keySet()));
      throw new SettingRefused(Code.G603, name, value.toString(), help);
    }
    if (!setting.allows(value)) {
      String allowed = "the file allows " + setting.allowed();
      String replacement = assessment.replaced().get(value.toString());
      throw new SettingRefused(
          Code.G603,
          name,
          value.toString(),
          replacement == null ? allowed : allowed + "; " + replacement + " replaces " + value);
    }
    Map<String, Setting.Value> values = new LinkedHashMap<>();
    settings.forEach((key, old) -> values.put(key, old.value()));
    values.put(name, value);
    return remake.apply(values);
  }

  /**
   * The questions without whose answers a test cannot begin: its loads, or its rules while it
   * lasts, rest on them.
   */
  public Set<String> neededAnswers() {
    return NeededAnswers.of(this);
  }

  /** The signals that estimates and results are made from as they stand at the end of a stage. */
  public Set<String> readByEstimates() {
    Set<String> signals = new TreeSet<>();
    for (EstimateLine line : assessment.lines()) {
      Set<Demand> demands = new HashSet<>(line.formula().demands());
      line.onlyWhen().ifPresent(condition -> demands.addAll(condition.demands()));
      line.term().ifPresent(condition -> demands.addAll(condition.demands()));
      for (Demand demand : demands) {
        demand.subjects().forEach(name -> read(name).ifPresent(signals::add));
      }
    }
    return signals;
  }

  // An axis of a line may be a signal or a formula; one that is a formula rests on others.
  private Optional<String> read(String name) {
    return Optional.ofNullable(wiring.facts().get(name))
        .filter(Fact.Read.class::isInstance)
        .flatMap(Fact::signal);
  }

  /** The longest a test can last when every verdict is followed as soon as it is given. */
  public Duration longest() {
    return LongestTest.of(this);
  }

  /**
   * The longest a person can be in a stage when every verdict is followed as soon as it is given:
   * its length, the holds its rules allow, and the wait for readings.
   */
  public Duration longestStay(Stage stage) {
    return LongestTest.longestStay(this, stage);
  }

  /** Id and version. */
  @Override
  public String toString() {
    return heading.id() + " " + heading.version();
  }

  /**
   * A value that stands under a name in rules, in the unit in which it is read.
   *
   * @param name a signal, a reading before the test or one with a name of its own, or anything else
   * @param base the value in the base unit of its kind
   * @param kind its kind
   */
  public Quantity shown(String name, double base, Kind kind) {
    requireNonNull(name, "name");
    Unit unit =
        Optional.ofNullable(wiring.facts().get(name))
            .flatMap(Fact::signal)
            .map(instruments::signal)
            .filter(signal -> signal.type() instanceof Type.Measure)
            .map(Signal::unit)
            .filter(found -> found.kind() == kind)
            .orElse(kind.base());
    return Quantity.ofBase(base, unit);
  }
}
