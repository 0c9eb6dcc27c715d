package org.gradus.capacity;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.protocol.Protocol;
import org.gradus.rule.Formula;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.answer.Gap.Cause;
import org.gradus.rule.plan.Frame;

/** Says what an estimate lacks, and what it is needed for: {@code "no age, so no maximal rate"}. */
final class Missing {

  private Missing() {}

  /**
   * What is missing, each once.
   *
   * @param frame where it is missing
   * @param gaps what is not known there
   */
  static List<String> words(Protocol protocol, Frame frame, List<Gap> gaps) {
    List<String> words = new ArrayList<>();
    for (Gap gap : gaps) {
      boolean given = gap.cause() == Cause.NOT_ANSWERED || gap.cause() == Cause.NEVER_TAKEN;
      Optional<String> of = given ? neededFor(protocol, frame, gap) : Optional.empty();
      words.add(of.map(what -> "no " + gap.called() + ", so no " + what).orElseGet(gap::inWords));
    }
    return words.stream().distinct().toList();
  }

  private static Optional<String> neededFor(Protocol protocol, Frame frame, Gap gap) {
    return isIn(protocol.assessment().maxHeartRate(), frame, gap)
        ? Optional.of("maximal heart rate")
        : isIn(protocol.assessment().uptake(), frame, gap)
            ? Optional.of("oxygen uptake")
            : Optional.empty();
  }

  private static boolean isIn(Optional<Formula> formula, Frame frame, Gap gap) {
    return formula
        .filter(
            value -> value.gaps(frame).stream().anyMatch(g -> g.subject().equals(gap.subject())))
        .isPresent();
  }
}
