package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.gradus.knowledge.Citation;
import org.gradus.rule.Formula;
import org.gradus.unit.Unit;

/**
 * A stage: a load for a time, or until something is done.
 *
 * @param id its name; rules may ask {@code stage is walk_2}
 * @param place its place in the protocol, from 0
 * @param lasts how long it is planned to last; the longest it may last when it lasts until done
 * @param untilDone whether it lasts until the person has done what is to be done
 * @param loads what makes up the load; none: without load
 * @param posture how the person is placed, if that is said: {@code standing}
 * @param warmUp whether it is left out of counts and estimates
 * @param ownRules rules that are looked at when it is due to end, instead of the common ones
 * @param source who prescribes it
 * @param pause whether the person rests in it, without a load
 * @param round the round of a block that it belongs to, if it does
 */
public record Stage(
    String id,
    int place,
    Duration lasts,
    boolean untilDone,
    List<Load> loads,
    Optional<String> posture,
    boolean warmUp,
    Optional<List<ProtocolRule>> ownRules,
    Citation source,
    boolean pause,
    Optional<Round> round) {

  /**
   * A round of a block, which has the same stages several times over.
   *
   * @param block the id of the block
   * @param number which round, from 1
   */
  public record Round(String block, int number) {
    public Round {
      requireNonNull(block, "block");
    }
  }

  /**
   * One component of a load.
   *
   * @param name {@code speed}, {@code grade}, {@code power} and so on
   * @param value how much, when the stage begins
   * @param unit the unit to show it in
   * @param ramp how it changes while the stage lasts, if it does
   */
  public record Load(String name, Formula value, Unit unit, Optional<Ramp> ramp) {
    public Load {
      requireNonNull(name, "name");
      requireNonNull(ramp, "ramp");
      requireNonNull(unit, "unit");
      requireNonNull(value, "value");
    }

    /** Every formula in it. */
    public List<Formula> formulas() {
      return ramp.map(change -> List.of(value, change.step(), change.to())).orElse(List.of(value));
    }

    /** Whether it is written out in figures, for which nothing has to be known. */
    public boolean isPlain() {
      return value.demands().isEmpty()
          && (ramp.isEmpty() || formulas().stream().allMatch(each -> each.demands().isEmpty()));
    }
  }

  /**
   * A load that changes step by step.
   *
   * @param step by how much
   * @param every how long each step lasts
   * @param to up or down to where
   */
  public record Ramp(Formula step, Duration every, Formula to) {
    public Ramp {
      requireNonNull(every, "every");
      requireNonNull(step, "step");
      requireNonNull(to, "to");
    }
  }

  public Stage {
    requireNonNull(id, "id");
    requireNonNull(lasts, "lasts");
    requireNonNull(loads, "loads");
    requireNonNull(posture, "posture");
    requireNonNull(round, "round");
    requireNonNull(source, "source");
    loads = List.copyOf(loads);
    ownRules = ownRules.map(List::copyOf);
  }

  /** Whether it counts for numbers of stages and for estimates: no warm-up and no pause does. */
  public boolean isCounted() {
    return !warmUp && !pause;
  }

  /** How long it lasts as long as it has not been done. */
  public Stretch stretch() {
    return new Stretch(lasts, untilDone ? Stretch.End.OPEN : Stretch.End.PLANNED);
  }
}
