package org.gradus.library;

import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.rule.syntax.Action;
import org.gradus.rule.syntax.Sentence;

/**
 * Checks that each group of rules has only actions of its own, and that a list for the end of a
 * stage closes unconditionally.
 */
final class RuleLists {

  // More holds than a tester would sit through, few enough to look at each.
  private static final int MOST_HOLDS = 100;

  private final Draft draft;
  private final Problems problems;

  RuleLists(Draft draft, Problems problems) {
    this.draft = draft;
    this.problems = problems;
  }

  void check() {
    actions(draft.before, "before", List.of("defer", "caution", "start at"));
    actions(draft.anyTime, "any_time", List.of("stop", "finish", "caution"));
    draft.recovery.ifPresent(
        r -> actions(r.rules(), "recovery", List.of("end", "caution", "stop")));
    actions(draft.result, "result", List.of("caution"));
    draft.anyTime.forEach(this::ends);
    draft.recovery.ifPresent(r -> r.rules().forEach(this::stops));
    boolean common = draft.stages.stream().anyMatch(stage -> stage.ownRules().isEmpty());
    boolean missing = draft.stageEnd.isEmpty() && !draft.isWhole("stage_end", "stages");
    if (common && !missing) {
      stageEnd(draft.stageEnd, draft.header.where());
    }
    draft.stages.forEach(stage -> stage.ownRules().ifPresent(own -> stageEnd(own, stage.where())));
  }

  private void actions(List<RuleDraft> rules, String group, List<String> allowed) {
    for (RuleDraft rule : rules) {
      rule.sentence()
          .filter(sentence -> !allowed.contains(sentence.action().word()))
          .ifPresent(
              sentence ->
                  problems.add(
                      sentence.actionSpan(),
                      Code.G403,
                      sentence.action().word(),
                      group,
                      String.join(", ", allowed)));
    }
  }

  // What always stops or finishes would do so in the first second.
  private void ends(RuleDraft rule) {
    rule.sentence()
        .filter(sentence -> sentence.action() instanceof Action.Finish)
        .ifPresent(this::always);
    stops(rule);
  }

  private void stops(RuleDraft rule) {
    rule.sentence()
        .filter(sentence -> sentence.action() instanceof Action.Stop)
        .ifPresent(this::always);
  }

  private void always(Sentence sentence) {
    if (sentence.when().isEmpty()) {
      String word = sentence.action().word();
      problems.add(
          sentence.span(), Code.G303, "a " + word + " that is looked at at any time", "when", "");
    }
  }

  private void stageEnd(List<RuleDraft> rules, Span owner) {
    actions(rules, "stage_end", List.of("finish", "hold", "change", "advance", "offer", "caution"));
    rules.forEach(rule -> rule.sentence().ifPresent(this::holds));
    Optional<RuleDraft> closing =
        rules.stream()
            .filter(rule -> rule.sentence().filter(RuleLists::closes).isPresent())
            .findFirst();
    // A rule that does not parse may be the one that was meant to close the list.
    boolean complete = rules.stream().allMatch(rule -> rule.sentence().isPresent());
    if (closing.isPresent()) {
      rules.stream()
          .skip(rules.indexOf(closing.get()) + 1L)
          .flatMap(rule -> rule.sentence().stream())
          .forEach(sentence -> problems.add(sentence.span(), Code.G402, closing.get().id()));
    } else if (complete) {
      Optional<Sentence> last =
          rules.isEmpty() ? Optional.empty() : rules.get(rules.size() - 1).sentence();
      problems.add(last.map(Sentence::span).orElse(owner), Code.G401);
    }
  }

  /**
   * Whether a rule always ends the list. A hold or a change that always holds is used up in the
   * end.
   */
  static boolean closes(Sentence sentence) {
    boolean ends =
        switch (sentence.action().kind()) {
          case FINISH, ADVANCE -> true;
          case STOP, HOLD, CHANGE, OFFER, CAUTION, DEFER, START_AT, END -> false;
        };
    return ends && sentence.when().isEmpty();
  }

  private void holds(Sentence sentence) {
    Action action = sentence.action().meant();
    switch (action.kind()) {
      case HOLD -> atMost(((Action.Hold) action).times(), "a number of holds", sentence);
      case CHANGE -> atMost(((Action.Change) action).times(), "a number of changes", sentence);
      case STOP, FINISH, ADVANCE, OFFER, CAUTION, DEFER, START_AT, END -> {
        // It is done once.
      }
    }
  }

  private void atMost(int times, String what, Sentence sentence) {
    if (times > MOST_HOLDS) {
      problems.add(
          sentence.actionSpan(),
          Code.G305,
          "at most " + times + " times",
          what,
          "allow " + MOST_HOLDS + " at most");
    }
  }
}
