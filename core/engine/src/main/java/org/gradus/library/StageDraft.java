package org.gradus.library;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Span;
import org.gradus.knowledge.Citation;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.protocol.Stage;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Kind;
import org.gradus.unit.Unit;

/**
 * A stage as it was written.
 *
 * @param pause whether the person rests in it
 * @param group the id that it shares with others of its series or block
 * @param falls whether it is meant to be easier than the one before
 * @param round the round of a block that it belongs to, if it does
 */
record StageDraft(
    String id,
    Span where,
    Duration lasts,
    boolean untilDone,
    List<LoadDraft> loads,
    Optional<String> posture,
    boolean warmUp,
    Optional<List<RuleDraft>> ownRules,
    Citation source,
    boolean pause,
    Optional<String> group,
    boolean falls,
    Optional<RoundDraft> round) {

  /**
   * A round of a block as it was written.
   *
   * @param block the id of the block, where it stands
   * @param number which round, from 1
   */
  record RoundDraft(Scalar block, int number) {

    Stage.Round round() {
      return new Stage.Round(block.value(), number);
    }
  }

  /** The same in a round of a block; of the block's rules it takes those that it lacks itself. */
  StageDraft inRound(RoundDraft of, Optional<List<RuleDraft>> common) {
    return new StageDraft(
        id + "_" + of.number(),
        where,
        lasts,
        untilDone,
        loads,
        posture,
        warmUp,
        ownRules.or(() -> common),
        source,
        pause,
        Optional.of(id),
        falls,
        Optional.of(of));
  }

  /** One component of its load. */
  record LoadDraft(String name, Unit unit, Expression value, Optional<RampDraft> ramp) {

    /** What it is a measure of. */
    Kind kind() {
      return unit.kind();
    }

    /** Every value in it. */
    List<Expression> expressions() {
      List<Expression> all = new ArrayList<>(List.of(value));
      ramp.ifPresent(change -> all.addAll(List.of(change.step(), change.to())));
      return all;
    }
  }

  /** How a load changes. */
  record RampDraft(Expression step, Duration every, Expression to) {}

  /** Every value in its loads. */
  List<Expression> expressions() {
    return loads.stream().flatMap(load -> load.expressions().stream()).toList();
  }
}
