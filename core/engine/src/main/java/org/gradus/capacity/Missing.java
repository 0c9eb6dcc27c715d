package org.gradus.capacity;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.knowledge.ResultMessage;
import org.gradus.protocol.Protocol;
import org.gradus.rule.Formula;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.answer.Gap.Cause;
import org.gradus.rule.plan.Frame;
import org.gradus.words.Message;

/** Says what an estimate lacks, and what it is needed for: {@code "no age, so no maximal rate"}. */
final class Missing {

  private Missing() {}

  /**
   * What is missing, each once.
   *
   * @param frame where it is missing
   * @param gaps what is not known there
   */
  static List<Message> of(Protocol protocol, Frame frame, List<Gap> gaps) {
    List<Message> missing = new ArrayList<>();
    for (Gap gap : gaps) {
      boolean given = gap.cause() == Cause.NOT_ANSWERED || gap.cause() == Cause.NEVER_TAKEN;
      Optional<ResultMessage> of = given ? neededFor(protocol, frame, gap) : Optional.empty();
      missing.add(
          of.map(what -> Message.of(ResultMessage.NO_SUBJECT_SO, gap.said(), what))
              .orElseGet(gap::message));
    }
    return missing.stream().distinct().toList();
  }

  private static Optional<ResultMessage> neededFor(Protocol protocol, Frame frame, Gap gap) {
    return isIn(protocol.assessment().maxHeartRate(), frame, gap)
        ? Optional.of(ResultMessage.A_MAXIMUM)
        : isIn(protocol.assessment().uptake(), frame, gap)
            ? Optional.of(ResultMessage.AN_UPTAKE)
            : Optional.empty();
  }

  private static boolean isIn(Optional<Formula> formula, Frame frame, Gap gap) {
    return formula
        .filter(
            value -> value.gaps(frame).stream().anyMatch(g -> g.subject().equals(gap.subject())))
        .isPresent();
  }
}
