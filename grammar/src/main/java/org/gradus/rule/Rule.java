package org.gradus.rule;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.rule.answer.Diagram;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.check.Layout;
import org.gradus.rule.check.Symbol;
import org.gradus.rule.check.Vocabulary;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.syntax.Action;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.Sentence;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;

/**
 * A sentence of the language, checked and planned.
 *
 * <pre>{@code
 * Rule hold = ...;                        // hold 1 min at most 2 times when not steady
 * if (hold.test(frame) == Truth.TRUE) {
 *   stay(hold.pause().orElseThrow());     // PT1M
 * }
 * }</pre>
 *
 * Immutable; it may be shared by any number of sessions and threads.
 */
// Members that show types of closed packages are for the engine and its tools.
@SuppressWarnings("exports")
public final class Rule {

  private final Sentence sentence;
  private final Optional<Condition> condition;
  private final Optional<Duration> pause;
  private final Optional<Quantity> step;
  private final String text;

  private Rule(
      Sentence sentence,
      Optional<Condition> condition,
      Optional<Duration> pause,
      Optional<Quantity> step) {
    this.sentence = sentence;
    this.condition = condition;
    this.pause = pause;
    this.step = step;
    this.text = sentence.span().inOneLine().strip();
  }

  /** Checks and plans a sentence; notes what is wrong with it and gives nothing if anything is. */
  public static Optional<Rule> of(
      Sentence sentence, Vocabulary vocabulary, Layout.Builder layout, Problems problems) {
    int before = problems.count();
    Optional<Condition> condition =
        sentence.when().flatMap(when -> Condition.of(when, vocabulary, layout, problems));
    Optional<Duration> pause =
        hold(sentence.action()).flatMap(hold -> pause(hold, vocabulary, problems));
    Optional<Quantity> step =
        sentence.action() instanceof Action.Change change
            ? step(change, vocabulary, problems)
            : Optional.empty();
    // What rests on something already found faulty is missing without a further word.
    boolean complete =
        condition.isPresent() == sentence.when().isPresent()
            && pause.isPresent() == hold(sentence.action()).isPresent()
            && step.isPresent() == sentence.action() instanceof Action.Change;
    return complete && problems.count() == before
        ? Optional.of(new Rule(sentence, condition, pause, step))
        : Optional.empty();
  }

  private static Optional<Action.Hold> hold(Action action) {
    return action.meant() instanceof Action.Hold hold ? Optional.of(hold) : Optional.empty();
  }

  private static Optional<Duration> pause(
      Action.Hold hold, Vocabulary vocabulary, Problems problems) {
    Optional<Duration> pause =
        fixed(hold.longer(), vocabulary)
            .filter(time -> time.kind() == Kind.TIME)
            .map(time -> Duration.ofMillis(Math.round(time.base() * 1000)))
            .filter(time -> time.compareTo(Duration.ZERO) > 0);
    if (pause.isEmpty()) {
      if (!isFaulty(hold.longer(), vocabulary)) {
        problems.add(hold.longer().span(), Code.G214, "hold", "a time above zero");
      }
      return Optional.empty();
    }
    return isAllowed(hold.times(), hold.longer(), "a number of holds", problems)
        ? pause
        : Optional.empty();
  }

  private static boolean isAllowed(int times, Expression at, String what, Problems problems) {
    if (times < 1) {
      problems.add(at.span(), Code.G305, "at most 0 times", what, "allow at least one");
    }
    return times > 0;
  }

  // By how much a load changes: fixed, of the kind of the load, and not nothing.
  private static Optional<Quantity> step(
      Action.Change change, Vocabulary vocabulary, Problems problems) {
    Optional<Kind> kind = kind(change.load(), vocabulary);
    Optional<Quantity> step =
        fixed(change.by(), vocabulary)
            .filter(by -> by.base() != 0)
            .filter(by -> kind.isEmpty() || by.kind() == kind.get());
    if (kind.isEmpty()) {
      if (!(vocabulary.meaning(change.load().text()).orElse(null) instanceof Symbol.Faulty)) {
        problems.add(
            change.load().span(),
            Code.G309,
            "load",
            change.load().text(),
            "change a load that the stage sets");
      }
      return Optional.empty();
    }
    if (step.isEmpty()) {
      if (!isFaulty(change.by(), vocabulary)) {
        String wanted = "a " + kind.get().words() + " other than zero";
        problems.add(change.by().span(), Code.G214, "change", wanted);
      }
      return Optional.empty();
    }
    return isAllowed(change.times(), change.by(), "a number of changes", problems)
        ? step
        : Optional.empty();
  }

  private static Optional<Kind> kind(Expression.Name load, Vocabulary vocabulary) {
    return vocabulary.meaning(load.text()).orElse(null) instanceof Symbol.Datum datum
            && datum.role() == Symbol.Role.FACT
            && datum.demand().type() instanceof Type.Measure measure
        ? Optional.of(measure.kind())
        : Optional.empty();
  }

  private static Optional<Quantity> fixed(Expression amount, Vocabulary vocabulary) {
    return amount instanceof Expression.Literal literal
        ? Optional.of(literal.quantity())
        : setting((Expression.Reference) amount, vocabulary);
  }

  private static boolean isFaulty(Expression name, Vocabulary vocabulary) {
    return name instanceof Expression.Reference reference
        && vocabulary.meaning(reference.name()).orElse(null) instanceof Symbol.Faulty;
  }

  private static Optional<Quantity> setting(Expression.Reference name, Vocabulary vocabulary) {
    return vocabulary
        .meaning(name.name())
        .filter(Symbol.Figure.class::isInstance)
        .map(figure -> ((Symbol.Figure) figure).value());
  }

  /** The sentence as it was written, in one line. */
  public String text() {
    return text;
  }

  /** The sentence with its place in the file. */
  public Sentence sentence() {
    return sentence;
  }

  /** What it recommends. */
  public Action action() {
    return sentence.action();
  }

  /** Its condition; without one it always holds. */
  public Optional<Condition> condition() {
    return condition;
  }

  /** By how much a hold prolongs the stage; empty for any other action. */
  public Optional<Duration> pause() {
    return pause;
  }

  /** By how much a change moves a load; empty for any other action. */
  public Optional<Quantity> step() {
    return step;
  }

  /** Whether it holds on what is known. */
  public Truth test(Frame frame) {
    return condition.isEmpty() ? Truth.TRUE : condition.get().test(frame);
  }

  /**
   * The whole sentence with the value of every part of its condition under it, and the same for the
   * definitions it uses. The rule is evaluated once more for this, and only when it is asked for.
   *
   * @param now in seconds since the start; the age of a reading is counted up to it
   */
  public Diagram diagram(Frame frame, double now) {
    return condition.isEmpty()
        ? new Diagram(List.of(new Diagram.Figure("", List.of(text()))))
        : condition.get().diagram(frame, sentence.span(), now);
  }
}
