package org.gradus.session;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Supplier;
import org.gradus.rule.answer.Gap;

/**
 * What the engine recommends at one moment, and why. Follow it with {@link Session#follow}, or
 * override it. Immutable; shared freely between threads.
 *
 * <p>Two decisions are equal when they say the same of the same moment. {@link #changesAt} is not
 * compared: it follows from the rest and the test.
 */
public final class Decision {

  private final Duration at;
  private final Phase phase;
  private final Optional<String> stage;
  private final Verdict verdict;
  private final Optional<Because> because;
  private final Firmness firmness;
  private final List<Offer> offers;
  private final List<Because> cautions;
  private final List<Unchecked> unchecked;
  private final Supplier<Agenda> agenda;
  private final int event;
  private final List<Hindsight> hindsight;
  private final Supplier<Optional<Duration>> changesAt;

  /**
   * A decision as it was once made, such as one that was stored. A session follows only what it
   * decides itself.
   *
   * @param at the moment
   * @param phase the phase the test is in
   * @param stage the stage it is in, in stages and in recovery
   * @param verdict what is recommended
   * @param because the rule behind it, where there is one
   * @param firmness whether the readings' own resolution could flip it
   * @param offers what the tester may choose instead
   * @param cautions what to keep in mind
   * @param unchecked rules that could not be checked
   * @param agenda what there is to do
   * @param event how many events it rests on
   * @param hindsight verdicts followed before that would have been others
   * @param changesAt when it may change by itself
   */
  public Decision(
      Duration at,
      Phase phase,
      Optional<String> stage,
      Verdict verdict,
      Optional<Because> because,
      Firmness firmness,
      List<Offer> offers,
      List<Because> cautions,
      List<Unchecked> unchecked,
      Agenda agenda,
      int event,
      List<Hindsight> hindsight,
      Optional<Duration> changesAt) {
    this(
        at,
        phase,
        stage,
        verdict,
        because,
        firmness,
        offers,
        cautions,
        unchecked,
        fixed(requireNonNull(agenda, "agenda")),
        event,
        hindsight,
        fixed(requireNonNull(changesAt, "changesAt")));
  }

  private static <T> Supplier<T> fixed(T value) {
    return () -> value;
  }

  private Decision(
      Duration at,
      Phase phase,
      Optional<String> stage,
      Verdict verdict,
      Optional<Because> because,
      Firmness firmness,
      List<Offer> offers,
      List<Because> cautions,
      List<Unchecked> unchecked,
      Supplier<Agenda> agenda,
      int event,
      List<Hindsight> hindsight,
      Supplier<Optional<Duration>> changesAt) {
    this.at = requireNonNull(at, "at");
    this.phase = requireNonNull(phase, "phase");
    this.stage = requireNonNull(stage, "stage");
    this.verdict = requireNonNull(verdict, "verdict");
    this.because = requireNonNull(because, "because");
    this.firmness = requireNonNull(firmness, "firmness");
    this.offers = List.copyOf(requireNonNull(offers, "offers"));
    this.cautions = List.copyOf(requireNonNull(cautions, "cautions"));
    this.unchecked = List.copyOf(requireNonNull(unchecked, "unchecked"));
    this.agenda = agenda;
    this.event = event;
    this.hindsight = List.copyOf(requireNonNull(hindsight, "hindsight"));
    this.changesAt = changesAt;
  }

  /**
   * The decision of a moment of a test.
   *
   * @param agenda works out what there is to do, once somebody asks: whoever only follows the
   *     verdict does not
   */
  static Decision of(
      StateAt now,
      Optional<String> stage,
      Verdict verdict,
      Optional<Because> because,
      Firmness firmness,
      List<Offer> offers,
      List<Because> cautions,
      List<Unchecked> unchecked,
      Supplier<Agenda> agenda) {
    TestState state = now.state();
    Duration time = now.time();
    return new Decision(
        time,
        state.phase,
        stage,
        verdict,
        because,
        firmness,
        offers,
        cautions,
        unchecked,
        new OnceAsked<>(agenda),
        now.number(),
        List.of(),
        new OnceAsked<>(() -> NextDecisionChange.of(StateAt.after(state).later(time))));
  }

  /** The same decision with other hindsight. */
  Decision with(List<Hindsight> other) {
    return new Decision(
        at, phase, stage, verdict, because, firmness, offers, cautions, unchecked, agenda, event,
        other, changesAt);
  }

  /** The moment. */
  public Duration at() {
    return at;
  }

  /** The phase the test is in. */
  public Phase phase() {
    return phase;
  }

  /** The stage it is in, in stages and in recovery. */
  public Optional<String> stage() {
    return stage;
  }

  /** What is recommended. */
  public Verdict verdict() {
    return verdict;
  }

  /** Which verdict it is. */
  public Verdict.Kind kind() {
    return verdict.kind();
  }

  /** The rule behind it, where there is one. */
  public Optional<Because> because() {
    return because;
  }

  /** Whether the readings' own resolution could flip it. */
  public Firmness firmness() {
    return firmness;
  }

  /** What the tester may choose instead without giving a reason. */
  public List<Offer> offers() {
    return offers;
  }

  /** What to keep in mind. */
  public List<Because> cautions() {
    return cautions;
  }

  /** Rules that could not be checked for want of readings. */
  public List<Unchecked> unchecked() {
    return unchecked;
  }

  /** What there is to do, as long as nothing else is decided; nothing once the test is over. */
  public Agenda agenda() {
    return agenda.get();
  }

  /** How many events it rests on: the number of the last one. */
  public int event() {
    return event;
  }

  /**
   * Verdicts followed before that would have been others, had been known then what was just told;
   * only in the answer to what tells it.
   */
  public List<Hindsight> hindsight() {
    return hindsight;
  }

  /**
   * When this decision may change by itself, if nothing is told or done: its verdict, the rule
   * behind it, its firmness, or what is offered, unchecked or cautioned. The agenda and the figures
   * in texts go on with the time. Until then a host need not ask again; it may turn out that the
   * decision is still the same.
   *
   * <p>This takes about as long as the decision took, and is worked out when it is asked for.
   *
   * @return the first such moment; empty where there is none within 24 hours of the start
   */
  public Optional<Duration> changesAt() {
    return changesAt.get();
  }

  /**
   * Something the tester may choose instead.
   *
   * @param verdict what
   * @param because the rule that offers it
   */
  public record Offer(Verdict verdict, Because because) {
    public Offer {
      requireNonNull(because, "because");
      requireNonNull(verdict, "verdict");
    }
  }

  /**
   * A rule that could not be checked.
   *
   * @param rule its id
   * @param gaps the readings it lacks
   */
  public record Unchecked(String rule, List<Gap> gaps) {
    public Unchecked {
      requireNonNull(gaps, "gaps");
      requireNonNull(rule, "rule");
      gaps = List.copyOf(gaps);
    }
  }

  /** Verdict and rule: {@code "HOLD until 4:00 (not-yet-steady)"}. */
  String said() {
    return verdict + because.map(rule -> " (" + rule.rule() + ")").orElse("");
  }

  private List<Object> parts() {
    return List.of(
        at, phase, stage, verdict, because, firmness, offers, cautions, unchecked, agenda(), event,
        hindsight);
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Decision decision && parts().equals(decision.parts());
  }

  @Override
  public int hashCode() {
    return Objects.hash(at, phase, stage, event, verdict.kind());
  }

  /** Time, verdict and reason in one line. */
  @Override
  public String toString() {
    String reason =
        because.map(rule -> " (" + rule.rule() + ": " + rule.shortly() + ")").orElse("");
    return Times.clock(at) + " " + verdict + reason;
  }
}
