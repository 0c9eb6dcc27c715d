package org.gradus.library;

import java.util.List;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.rule.syntax.Action;

/**
 * Each group of rules has its actions, and a list for the end of a stage closes unconditionally.
 */
final class RuleLists {

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
    boolean common = draft.stages.stream().anyMatch(stage -> stage.ownRules().isEmpty());
    if (common) {
      stageEnd(draft.stageEnd, draft.header.where());
    }
    draft.stages.forEach(stage -> stage.ownRules().ifPresent(own -> stageEnd(own, stage.where())));
  }

  private void actions(List<RuleDraft> rules, String group, List<String> allowed) {
    for (RuleDraft rule : rules) {
      String word = rule.sentence().action().word();
      if (!allowed.contains(word)) {
        problems.add(
            rule.sentence().actionSpan(), Code.G403, word, group, String.join(", ", allowed));
      }
    }
  }

  private void stageEnd(List<RuleDraft> rules, Span owner) {
    actions(rules, "stage_end", List.of("finish", "hold", "advance", "offer", "caution"));
    RuleDraft closing = null;
    for (RuleDraft rule : rules) {
      if (closing != null) {
        problems.add(rule.sentence().span(), Code.G402, closing.id());
      } else if (closes(rule)) {
        closing = rule;
      }
    }
    if (closing == null) {
      Span where = rules.isEmpty() ? owner : rules.get(rules.size() - 1).sentence().span();
      problems.add(where, Code.G401);
    }
  }

  // A hold that always holds is used up after its number of times.
  private static boolean closes(RuleDraft rule) {
    boolean ends =
        rule.sentence().action() instanceof Action.Finish
            || rule.sentence().action() instanceof Action.Advance;
    return ends && rule.sentence().when().isEmpty();
  }
}
