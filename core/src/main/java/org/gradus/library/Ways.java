package org.gradus.library;

import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Suggestion;
import org.gradus.rule.syntax.Action;
import org.gradus.rule.syntax.Expression.Name;

/**
 * The ways from stage to stage: they lead to stages that exist, only forwards, and reach every
 * stage.
 */
final class Ways {

  private final Draft draft;
  private final Problems problems;
  private final List<String> ids;
  private final boolean[] reached;

  Ways(Draft draft, Problems problems) {
    this.draft = draft;
    this.problems = problems;
    this.ids = draft.stages.stream().map(StageDraft::id).toList();
    this.reached = new boolean[ids.size()];
  }

  void check() {
    if (ids.isEmpty()) {
      problems.add(draft.header.where(), Code.G303, "the protocol", "stages");
      return;
    }
    if (ids.size() > 60) {
      problems.add(draft.header.where(), Code.G308, ids.size() + " stages", "60");
      return;
    }
    starts();
    for (int i = 0; i < ids.size(); i++) {
      StageDraft stage = draft.stages.get(i);
      List<RuleDraft> rules = stage.ownRules().orElse(draft.stageEnd);
      for (RuleDraft rule : rules) {
        advance(rule.sentence().action(), i);
      }
    }
    for (int i = 0; i < ids.size(); i++) {
      if (!reached[i]) {
        problems.add(draft.stages.get(i).where(), Code.G407, ids.get(i));
      }
    }
  }

  private void starts() {
    boolean always = false;
    for (RuleDraft rule : draft.before) {
      if (rule.sentence().action() instanceof Action.StartAt start) {
        place(start.stage()).ifPresent(place -> reached[place] = true);
        always |= rule.sentence().when().isEmpty();
      }
    }
    if (!always) {
      reached[0] = true;
    }
  }

  private void advance(Action action, int from) {
    Action meant = action instanceof Action.Offer offer ? offer.offered() : action;
    if (!(meant instanceof Action.Advance advance)) {
      return;
    }
    if (advance.to().isEmpty()) {
      reach(from, from + 1);
      return;
    }
    Name to = advance.to().get();
    Optional<Integer> place = place(to);
    if (place.isPresent() && place.get() <= from) {
      problems.add(to.span(), Code.G404, to.text());
    }
    place.filter(target -> target > from).ifPresent(target -> reach(from, target));
  }

  // A stage that cannot be reached leads nowhere; stages are looked at in order, so this is known
  // by then.
  private void reach(int from, int to) {
    if (reached[from] && to < reached.length) {
      reached[to] = true;
    }
  }

  private Optional<Integer> place(Name stage) {
    int place = ids.indexOf(stage.text());
    if (place < 0) {
      problems.add(
          stage.span(),
          Code.G309,
          "stage",
          stage.text(),
          Suggestion.help(stage.text(), ids, "the stages are " + String.join(", ", ids)));
      return Optional.empty();
    }
    return Optional.of(place);
  }
}
