package org.gradus.library;

import java.util.List;
import java.util.stream.Stream;
import org.gradus.diagnostic.Problems;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Recovery;
import org.gradus.protocol.Setting;
import org.gradus.protocol.Stage;
import org.gradus.rule.check.Layout;
import org.gradus.rule.syntax.Expression;

/**
 * The loads of stages planned once more, with settings that have any of the values the file allows:
 * else a loaded file would promise nothing about what a laboratory may set.
 *
 * @param layout the slots they ask for
 * @param exercise the loads of each stage of the exercise
 * @param recovery the loads of each stage of recovery
 */
record OpenLoads(Layout layout, List<List<Stage.Load>> exercise, List<List<Stage.Load>> recovery) {

  static OpenLoads of(Draft draft, Shelf shelf, Protocol protocol) {
    OpenLoads asTheyAre =
        new OpenLoads(
            protocol.wiring().layout(),
            loads(protocol.stages()),
            loads(protocol.recovery().map(Recovery::stages).orElse(List.of())));
    List<StageDraft> recovery = draft.recovery.map(RecoveryDraft::stages).orElse(List.of());
    boolean open =
        protocol.settings().values().stream().anyMatch(Setting::isOpen)
            && Stream.concat(draft.stages.stream(), recovery.stream())
                .flatMap(stage -> stage.expressions().stream())
                .anyMatch(OpenLoads::names);
    if (!open) {
      return asTheyAre;
    }
    // What is wrong has been said when they were planned with the settings as they are.
    Problems unsaid = new Problems();
    Layout.Builder layout = new Layout.Builder();
    Names.Known known =
        Names.of(draft, shelf, protocol.settings(), SettingSymbols::open, layout, unsaid);
    PlannedValues values = new PlannedValues(draft, known.vocabulary(), layout, unsaid);
    List<List<Stage.Load>> exercise = draft.stages.stream().map(values::loads).toList();
    List<List<Stage.Load>> after = recovery.stream().map(values::loads).toList();
    // Where a figure has to be fixed, such as the step of a rounding, the setting counts as it is;
    // Protocol.with looks again with each other value.
    boolean whole =
        count(exercise) == count(asTheyAre.exercise())
            && count(after) == count(asTheyAre.recovery());
    return whole ? new OpenLoads(layout.build(), exercise, after) : asTheyAre;
  }

  private static List<List<Stage.Load>> loads(List<Stage> stages) {
    return stages.stream().map(Stage::loads).toList();
  }

  private static int count(List<List<Stage.Load>> loads) {
    return loads.stream().mapToInt(List::size).sum();
  }

  // Whether it mentions anything, which may be a setting or rest on one.
  private static boolean names(Expression part) {
    return part instanceof Expression.Reference || part.parts().stream().anyMatch(OpenLoads::names);
  }
}
