package org.gradus.library;

import java.util.List;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.internal.reach.Scene;
import org.gradus.protocol.CostLine;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Stage;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Presence;
import org.gradus.rule.check.Demand;

/**
 * Checks the loads of stages: they are known when the stage begins, and enough for the oxygen cost.
 */
final class StageLoads {

  private final Draft draft;
  private final Protocol protocol;
  private final Ways ways;
  private final Problems problems;

  StageLoads(Draft draft, Protocol protocol, Ways ways, Problems problems) {
    this.draft = draft;
    this.protocol = protocol;
    this.ways = ways;
    this.problems = problems;
  }

  void check() {
    if (draft.isWhole("stages", "for") && ways.exist()) {
      protocol.stages().forEach(this::known);
      protocol.assessment().costs().forEach(this::enough);
    }
  }

  // A load that is not known when the stage begins cannot be set. Answers are: they are asked for
  // before the test.
  private void known(Stage stage) {
    Scene scene = new Scene(protocol, ways);
    Box start = scene.start(stage);
    for (Stage.Load load : stage.loads()) {
      Box box = start;
      List<String> lacking =
          load.formulas().stream()
              .flatMap(formula -> formula.demands().stream())
              .filter(demand -> !isKnown(demand, box))
              .map(Demand::subject)
              .sorted()
              .toList();
      boolean open =
          load.formulas().stream().anyMatch(part -> part.range(box).presence() != Presence.KNOWN);
      if (open && !lacking.isEmpty()) {
        problems.add(
            draft.stages.get(stage.place()).where(),
            Code.G410,
            "the " + load.name().replace('_', ' ') + " of " + stage.id(),
            "when the stage begins",
            "list it under for: needs, ask for it, or write the load out: "
                + String.join(", ", lacking));
      }
      start = scene.with(load, load.value().range(box).with(Presence.KNOWN), start);
    }
  }

  private boolean isKnown(Demand demand, Box box) {
    int slot = protocol.wiring().layout().demands().indexOf(demand);
    return box.cell(slot).presence() == Presence.KNOWN;
  }

  // Warm-ups are left out of estimates, and may be without load.
  private void enough(CostLine cost) {
    for (Stage stage : protocol.stages()) {
      StageDraft written = draft.stages.get(stage.place());
      if (written.loads().isEmpty() && !cost.equation().loads().isEmpty() && stage.isCounted()) {
        problems.add(
            written.where(),
            Code.G409,
            "the cost " + cost.equation().id(),
            String.join(", ", cost.equation().loads()),
            stage.id(),
            "a stage without a load has no cost: write rest: TIME in place of lasts for a pause,"
                + " or warm_up: yes");
        continue;
      }
      for (String load : cost.equation().loads()) {
        boolean set =
            draft.stages.get(stage.place()).loads().stream().anyMatch(l -> l.name().equals(load));
        if (!set && stage.isCounted()) {
          problems.add(
              draft.stages.get(stage.place()).where(),
              Code.G409,
              "the cost " + cost.equation().id(),
              load,
              stage.id(),
              "add " + load + " to the stage");
        }
      }
    }
  }
}
