package org.gradus.library;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.protocol.Question;
import org.gradus.protocol.Stage;
import org.gradus.rule.Condition;
import org.gradus.rule.Formula;
import org.gradus.rule.check.Layout;
import org.gradus.rule.check.Vocabulary;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Kind;
import org.gradus.unit.Type;

/** Checks and plans what is worked out for a person: loads of stages, and what may be answered. */
final class PlannedValues {

  private final Draft draft;
  private final Vocabulary vocabulary;
  private final Layout.Builder layout;
  private final Problems problems;

  PlannedValues(Draft draft, Vocabulary vocabulary, Layout.Builder layout, Problems problems) {
    this.draft = draft;
    this.vocabulary = vocabulary;
    this.layout = layout;
    this.problems = problems;
  }

  /** The load of a stage. */
  List<Stage.Load> loads(StageDraft stage) {
    List<Stage.Load> loads = new ArrayList<>();
    for (StageDraft.LoadDraft load : stage.loads()) {
      Optional<Formula> value = formula(load.value(), load.kind());
      Optional<Stage.Ramp> ramp = load.ramp().flatMap(change -> ramp(change, load.kind()));
      if (value.isPresent() && ramp.isPresent() == load.ramp().isPresent()) {
        loads.add(new Stage.Load(load.name(), value.get(), ShownUnits.of(load, draft), ramp));
      }
    }
    return loads;
  }

  private Optional<Stage.Ramp> ramp(StageDraft.RampDraft change, Kind kind) {
    Optional<Formula> step = formula(change.step(), kind);
    Optional<Formula> to = formula(change.to(), kind);
    return step.isPresent() && to.isPresent()
        ? Optional.of(new Stage.Ramp(step.get(), change.every(), to.get()))
        : Optional.empty();
  }

  private Optional<Formula> formula(Expression text, Kind kind) {
    return Formula.of(text, List.of(kind), vocabulary, layout, problems);
  }

  /** A question with what it offers and what counts when it is not answered. */
  Question question(String name, Draft.Ask ask) {
    return new Question(
        name,
        ask.type(),
        ask.prompt(),
        ask.range(),
        ask.options().stream()
            .map(
                option ->
                    new Question.Offered(
                        option.value(), option.when().flatMap(this::condition), option.source()))
            .toList(),
        ask.fallback().flatMap(text -> fallback(text, ask.type())),
        ask.unless().flatMap(this::condition),
        ask.source());
  }

  private Optional<Condition> condition(Expression text) {
    return Condition.of(text, vocabulary, layout, problems);
  }

  private Optional<Question.Fallback> fallback(Expression text, Type type) {
    if (type instanceof Type.Measure measure) {
      return formula(text, measure.kind()).map(Question.Fallback.Worked::new);
    }
    List<String> words =
        type instanceof Type.Choice choice ? choice.options() : List.of("no", "yes");
    String word = text instanceof Expression.Reference reference ? reference.name() : "";
    if (words.contains(word)) {
      return Optional.of(new Question.Fallback.Fixed(words.indexOf(word)));
    } else if (type.equals(Type.CONDITION)) {
      return condition(text).map(Question.Fallback.Held::new);
    }
    problems.add(
        text.span(),
        Code.G305,
        text.span().text(),
        "one of " + String.join(", ", words),
        "choose one of them");
    return Optional.empty();
  }
}
