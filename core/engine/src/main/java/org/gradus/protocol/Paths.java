package org.gradus.protocol;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import org.gradus.rule.syntax.Action;

/** Where a test can begin, and from which stages each stage can be reached. */
// Members that show types of closed packages are for the engine and its tools.
@SuppressWarnings("exports")
public interface Paths {

  /** Whether a test can begin with a stage, given by its place. */
  boolean canStart(int stage);

  /** The places of the stages from which a stage can be reached. */
  Iterable<Integer> before(int stage);

  /** The paths of a protocol that was loaded, so that every one leads to a stage. */
  static Paths of(Protocol protocol) {
    List<TreeSet<Integer>> before = new ArrayList<>();
    protocol.stages().forEach(stage -> before.add(new TreeSet<>()));
    for (Stage stage : protocol.stages()) {
      for (ProtocolRule rule : protocol.rulesAtEndOf(stage)) {
        next(protocol, stage, rule.action()).ifPresent(to -> before.get(to).add(stage.place()));
      }
    }
    TreeSet<Integer> starts = new TreeSet<>();
    boolean always = false;
    for (ProtocolRule rule : protocol.rules().before()) {
      if (rule.action() instanceof Action.StartAt start) {
        protocol.stage(start.stage().text()).map(Stage::place).ifPresent(starts::add);
        always |= rule.rule().condition().isEmpty();
      }
    }
    if (!always) {
      starts.add(0);
    }
    return new Paths() {
      @Override
      public boolean canStart(int stage) {
        return starts.contains(stage);
      }

      @Override
      public Iterable<Integer> before(int stage) {
        return before.get(stage);
      }
    };
  }

  /** The place of the stage to which an action leads from a stage, if it leads to any. */
  static Optional<Integer> next(Protocol protocol, Stage from, Action action) {
    if (!(action.meant() instanceof Action.Advance advance)) {
      return Optional.empty();
    }
    return advance
        .to()
        .map(to -> protocol.stage(to.text()).map(Stage::place))
        .orElse(Optional.of(from.place() + 1))
        .filter(place -> place < protocol.stages().size());
  }
}
