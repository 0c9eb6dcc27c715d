package org.gradus.library;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.TreeSet;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.protocol.Paths;
import org.gradus.rule.syntax.Action;
import org.gradus.rule.syntax.Expression.Name;
import org.gradus.rule.syntax.Sentence;

/**
 * Checks the ways from stage to stage: they lead to stages that exist, only forwards, and reach
 * every stage.
 */
final class Ways implements Paths {

  // Which stage it is is kept as a bit of a number.
  static final int MOST_STAGES = 60;

  private final Draft draft;
  private final Problems problems;
  private final Stages stages;
  private final List<TreeSet<Integer>> before = new ArrayList<>();
  private final TreeSet<Integer> starts = new TreeSet<>();

  Ways(Draft draft, Problems problems) {
    this.draft = draft;
    this.problems = problems;
    this.stages = new Stages(draft, problems);
    draft.stages.forEach(stage -> before.add(new TreeSet<>()));
  }

  /** Whether there is a number of stages that ways can lead through. */
  boolean exist() {
    return !draft.stages.isEmpty() && draft.stages.size() <= MOST_STAGES;
  }

  @Override
  public boolean canStart(int stage) {
    return starts.contains(stage);
  }

  @Override
  public Iterable<Integer> before(int stage) {
    return before.get(stage);
  }

  void check() {
    if (draft.stages.isEmpty() && draft.isWhole("stages")) {
      problems.add(draft.header.where(), Code.G303, "the protocol", "stages");
    } else if (draft.stages.size() > MOST_STAGES) {
      problems.add(
          draft.stages.get(MOST_STAGES).where(),
          Code.G308,
          draft.stages.size() + " stages",
          Integer.toString(MOST_STAGES));
    }
    if (exist()) {
      starts();
      for (int i = 0; i < before.size(); i++) {
        List<RuleDraft> rules = draft.stages.get(i).ownRules().orElse(draft.stageEnd);
        for (RuleDraft rule : rules) {
          advance(rule, i);
        }
      }
      reached();
    }
  }

  private void starts() {
    boolean always = false;
    for (RuleDraft rule : draft.before) {
      if (rule.sentence().isPresent()
          && rule.sentence().get().action() instanceof Action.StartAt start) {
        stages.place(start.stage()).ifPresent(starts::add);
        always |= rule.sentence().get().when().isEmpty();
      }
    }
    if (!always) {
      starts.add(0);
    }
  }

  private void advance(RuleDraft rule, int from) {
    Action meant =
        rule.sentence().map(Sentence::action).map(Action::meant).orElse(new Action.End());
    if (meant instanceof Action.Advance advance) {
      if (advance.to().isPresent()) {
        advance(advance.to().get(), from);
      } else if (from + 1 < before.size()) {
        before.get(from + 1).add(from);
      }
    }
  }

  private void advance(Name to, int from) {
    OptionalInt place = stages.place(to);
    if (place.isPresent() && place.getAsInt() > from) {
      before.get(place.getAsInt()).add(from);
    } else if (place.isPresent()) {
      problems.add(to.span(), Code.G404, to.text());
    }
  }

  // Ways lead only forwards, so that whether a stage can be reached is known before those behind
  // it.
  private void reached() {
    boolean[] reached = new boolean[before.size()];
    List<StageDraft> unreached = new ArrayList<>();
    for (int i = 0; i < reached.length; i++) {
      reached[i] = canStart(i) || before.get(i).stream().anyMatch(from -> reached[from]);
      if (!reached[i]) {
        unreached.add(draft.stages.get(i));
      }
    }
    boolean complete =
        draft.isWhole("stages", "stage_end", "before")
            && draft.rules().stream().allMatch(rule -> rule.sentence().isPresent());
    if (!unreached.isEmpty() && complete) {
      List<String> ids = unreached.stream().map(StageDraft::id).toList();
      problems.add(unreached.get(0).where(), Code.G407, String.join(", ", ids));
    }
  }
}
