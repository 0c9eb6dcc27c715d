package org.gradus.protocol;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.gradus.rule.syntax.Action;

/**
 * The longest way through the stages. Ways lead only forwards, so one pass from the last stage is
 * enough.
 */
final class LongestTest {

  private LongestTest() {}

  static Duration of(Protocol protocol) {
    List<Stage> stages = protocol.stages();
    Duration[] fromHere = new Duration[stages.size()];
    for (int i = stages.size() - 1; i >= 0; i--) {
      Duration rest = Duration.ZERO;
      for (ProtocolRule rule : protocol.rulesAtEndOf(stages.get(i))) {
        Optional<Duration> after =
            Paths.next(protocol, stages.get(i), rule.action()).map(next -> fromHere[next]);
        if (after.isPresent() && after.get().compareTo(rest) > 0) {
          rest = after.get();
        }
      }
      // After each change of its load a stage lasts as long again.
      fromHere[i] =
          longestStay(protocol, stages.get(i))
              .multipliedBy(1L + mostChanges(protocol, stages.get(i)))
              .plus(rest);
    }
    Duration longest = Duration.ZERO;
    for (Duration way : fromHere) {
      longest = way.compareTo(longest) > 0 ? way : longest;
    }
    return longest.plus(protocol.recovery().map(Recovery::atMost).orElse(Duration.ZERO));
  }

  // Changes share one count per stage, as holds do.
  private static int mostChanges(Protocol protocol, Stage stage) {
    int most = 0;
    for (ProtocolRule rule : protocol.rulesAtEndOf(stage)) {
      if (rule.action() instanceof Action.Change change) {
        most = Math.max(most, change.times());
      }
    }
    return most;
  }

  // Holds share one count per stage; missing readings are waited for once.
  static Duration longestStay(Protocol protocol, Stage stage) {
    Duration stay = stage.lasts().plus(protocol.unmeasured().atMost());
    Duration longest = longestHold(protocol, stage, 0);
    for (int held = 1; !longest.isZero(); held++) {
      stay = stay.plus(longest);
      longest = longestHold(protocol, stage, held);
    }
    return stay;
  }

  /** The longest hold that is still allowed after some. */
  private static Duration longestHold(Protocol protocol, Stage stage, int held) {
    Duration longest = Duration.ZERO;
    for (ProtocolRule rule : protocol.rulesAtEndOf(stage)) {
      Duration pause = rule.rule().pause().orElse(Duration.ZERO);
      if (rule.action().meant() instanceof Action.Hold hold
          && hold.times() > held
          && pause.compareTo(longest) > 0) {
        longest = pause;
      }
    }
    return longest;
  }
}
