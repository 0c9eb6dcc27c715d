package org.gradus.session;

import java.time.Duration;
import java.util.List;
import org.gradus.protocol.Recovery;
import org.gradus.protocol.Stage;

/**
 * The stage of recovery at some moment.
 *
 * @param stage the stage
 * @param start when it began, or would have begun had the one before not been passed over
 * @param end when it ends, or recovery does
 * @param place its place among the stages of recovery, from 0
 */
record RecoveryStage(Stage stage, Duration start, Duration end, int place) {

  /** The stage at a moment; after a stop with rest the stages with a load are skipped. */
  static RecoveryStage at(TestState state, Duration time) {
    Recovery recovery = state.protocol.recovery().orElseThrow();
    Duration start = state.recovery.exerciseEnd().orElse(state.now);
    Duration limit = start.plus(recovery.atMost());
    List<Stage> stages = recovery.stages();
    Duration end = start.minus(state.recovery.skipped());
    int place = 0;
    for (int i = 0; i < stages.size(); i++) {
      end = end.plus(stages.get(i).lasts());
      place = i;
      if (end.compareTo(time) > 0) {
        break;
      }
    }
    Duration until = end.compareTo(limit) < 0 && end.compareTo(time) > 0 ? end : limit;
    Duration began = end.minus(stages.get(place).lasts());
    return new RecoveryStage(stages.get(place), began, until, place);
  }

  /** What is set in each stage of recovery, were it to begin at a time. */
  static List<List<Loading>> loads(TestState state, Duration at) {
    return state
        .protocol
        .recovery()
        .map(after -> after.stages().stream().map(stage -> Loads.of(state, stage, at)).toList())
        .orElse(List.of());
  }

  /** The load with which recovery would begin at a time; to rest is to have none. */
  static List<Loading> first(TestState state, boolean rest, Duration at) {
    return state
        .protocol
        .recovery()
        .filter(after -> !rest)
        .map(after -> Loads.of(state, after.stages().get(0), at))
        .orElse(List.of());
  }
}
