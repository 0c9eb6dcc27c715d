package org.gradus.session;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.gradus.rule.answer.Gap;

/**
 * What the engine recommends at one moment, and why. Follow it with {@link Session#follow}, or
 * override it.
 *
 * @param at the moment
 * @param phase the phase the test is in
 * @param stage the stage it is in, in stages and in recovery
 * @param verdict what is recommended
 * @param because the rule behind it, where there is one
 * @param firmness whether the readings' own resolution could flip it
 * @param offers what the tester may choose instead without giving a reason
 * @param cautions what to keep in mind
 * @param unchecked rules that could not be checked for want of readings
 * @param event how many events it rests on
 * @param hindsight verdicts followed before that would have been others, had been known then what
 *     was just told; only in the answer to what tells it
 */
public record Decision(
    Duration at,
    Phase phase,
    Optional<String> stage,
    Verdict verdict,
    Optional<Because> because,
    Firmness firmness,
    List<Offer> offers,
    List<Because> cautions,
    List<Unchecked> unchecked,
    int event,
    List<Hindsight> hindsight) {

  public Decision {
    offers = List.copyOf(offers);
    cautions = List.copyOf(cautions);
    unchecked = List.copyOf(unchecked);
    hindsight = List.copyOf(hindsight);
  }

  Decision(
      Duration at,
      Phase phase,
      Optional<String> stage,
      Verdict verdict,
      Optional<Because> because,
      Firmness firmness,
      List<Offer> offers,
      List<Because> cautions,
      List<Unchecked> unchecked,
      int event) {
    this(
        at, phase, stage, verdict, because, firmness, offers, cautions, unchecked, event,
        List.of());
  }

  /** The same decision with other hindsight. */
  Decision with(List<Hindsight> other) {
    return new Decision(
        at, phase, stage, verdict, because, firmness, offers, cautions, unchecked, event, other);
  }

  /**
   * Something the tester may choose instead.
   *
   * @param verdict what
   * @param because the rule that offers it
   */
  public record Offer(Verdict verdict, Because because) {}

  /**
   * A rule that could not be checked.
   *
   * @param rule its id
   * @param gaps the readings it lacks
   */
  public record Unchecked(String rule, List<Gap> gaps) {
    public Unchecked {
      gaps = List.copyOf(gaps);
    }
  }

  /** Verdict and rule: {@code "HOLD until 4:00 (not-yet-steady)"}. */
  String said() {
    return verdict + because.map(rule -> " (" + rule.rule() + ")").orElse("");
  }

  /** Time, verdict and reason in one line. */
  @Override
  public String toString() {
    String reason =
        because.map(rule -> " (" + rule.rule() + ": " + rule.shortly() + ")").orElse("");
    return Times.clock(at) + " " + verdict + reason;
  }
}
