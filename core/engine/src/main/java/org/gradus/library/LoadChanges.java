package org.gradus.library;

import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Stage;
import org.gradus.rule.syntax.Action;
import org.gradus.rule.syntax.Expression.Name;

/**
 * Rules that change a load at the end of a stage: the stage sets it, it stays as it is while the
 * stage lasts, and a range bounds it. A change that would lead beyond the range is passed over, so
 * that no load outside it is ever set.
 */
final class LoadChanges {

  private final Draft draft;
  private final Protocol protocol;
  private final Problems problems;

  LoadChanges(Draft draft, Protocol protocol, Problems problems) {
    this.draft = draft;
    this.protocol = protocol;
    this.problems = problems;
  }

  void check() {
    if (!draft.isWhole("loads", "stages", "stage_end")) {
      return;
    }
    for (Stage stage : protocol.stages()) {
      for (ProtocolRule rule : protocol.rulesAtEndOf(stage)) {
        if (rule.action() instanceof Action.Change change) {
          check(stage, change.load());
        }
      }
    }
  }

  private void check(Stage stage, Name load) {
    String name = load.text();
    Optional<Stage.Load> set =
        stage.loads().stream().filter(one -> one.name().equals(name)).findFirst();
    if (set.isEmpty()) {
      no(stage, load, "the stage does not set it", "set it there, or give the stage a stage_end");
    } else if (stage.loads().stream().anyMatch(one -> one.ramp().isPresent())) {
      no(stage, load, "a load of the stage is a ramp", "take the ramp away");
    } else if (!draft.loads.containsKey(name)) {
      String help = "write under loads: " + name + ": { range: ..., source: ... }";
      no(stage, load, "no range bounds it", help);
    }
  }

  private void no(Stage stage, Name load, String why, String help) {
    problems.add(load.span(), Code.G413, stage.id(), load.text(), why, help);
  }
}
