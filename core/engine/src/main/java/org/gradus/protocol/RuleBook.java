package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.stream.Stream;
import org.gradus.rule.syntax.Action;

/** The rules of a protocol by when they are looked at. Immutable. */
public final class RuleBook {

  private final List<ProtocolRule> before;
  private final List<ProtocolRule> anyTime;
  private final List<ProtocolRule> stageEnd;
  private final List<ProtocolRule> recovery;
  private final List<ProtocolRule> result;
  // Worked out once: they are asked for at every second of a test.
  private final List<ProtocolRule> inRecovery;
  private final List<ProtocolRule> endingExercise;
  private final List<ProtocolRule> endingRecovery;
  private final List<ProtocolRule> finishing;
  private final List<ProtocolRule> cautioning;
  private final List<ProtocolRule> endOfRecovery;
  private final List<ProtocolRule> cautioningInRecovery;

  /**
   * The rules by when they are looked at, each group in the order of the file.
   *
   * @param before before the first stage
   * @param anyTime after every event
   * @param stageEnd when a stage is due to end, for stages without a list of their own
   * @param recovery while the person recovers
   * @param result when the result is worked out
   */
  public RuleBook(
      List<ProtocolRule> before,
      List<ProtocolRule> anyTime,
      List<ProtocolRule> stageEnd,
      List<ProtocolRule> recovery,
      List<ProtocolRule> result) {
    requireNonNull(anyTime, "anyTime");
    requireNonNull(before, "before");
    requireNonNull(recovery, "recovery");
    requireNonNull(result, "result");
    requireNonNull(stageEnd, "stageEnd");
    this.before = List.copyOf(before);
    this.anyTime = List.copyOf(anyTime);
    this.stageEnd = List.copyOf(stageEnd);
    this.recovery = List.copyOf(recovery);
    this.result = List.copyOf(result);
    this.inRecovery =
        Stream.concat(anyTime.stream().filter(rule -> !rule.stagesOnly()), recovery.stream())
            .toList();
    this.endingExercise = anyTime.stream().filter(ProtocolRule::ends).toList();
    this.endingRecovery = inRecovery.stream().filter(ProtocolRule::ends).toList();
    this.finishing = endingExercise.stream().filter(ProtocolRule::isFinish).toList();
    this.cautioning = of(Action.Kind.CAUTION, anyTime);
    this.endOfRecovery = of(Action.Kind.END, inRecovery);
    this.cautioningInRecovery = of(Action.Kind.CAUTION, inRecovery);
  }

  private static List<ProtocolRule> of(Action.Kind kind, List<ProtocolRule> rules) {
    return rules.stream().filter(rule -> rule.action().kind() == kind).toList();
  }

  /** Before the first stage. */
  public List<ProtocolRule> before() {
    return before;
  }

  /** After every event. */
  public List<ProtocolRule> anyTime() {
    return anyTime;
  }

  /** When a stage is due to end, for stages without a list of their own. */
  public List<ProtocolRule> stageEnd() {
    return stageEnd;
  }

  /** While the person recovers. */
  public List<ProtocolRule> recovery() {
    return recovery;
  }

  /** When the result is worked out. */
  public List<ProtocolRule> result() {
    return result;
  }

  /** All that are looked at in recovery: those of any time, and its own. */
  public List<ProtocolRule> inRecovery() {
    return inRecovery;
  }

  /** Those that stop or finish the exercise at any time. */
  public List<ProtocolRule> endingExercise() {
    return endingExercise;
  }

  /** Those of them that finish it. */
  public List<ProtocolRule> finishing() {
    return finishing;
  }

  /** Those of any time that caution. */
  public List<ProtocolRule> cautioning() {
    return cautioning;
  }

  /** Those that stop recovery at any time. */
  public List<ProtocolRule> endingRecovery() {
    return endingRecovery;
  }

  /** Those by which recovery is over. */
  public List<ProtocolRule> endOfRecovery() {
    return endOfRecovery;
  }

  /** Those that caution in recovery. */
  public List<ProtocolRule> cautioningInRecovery() {
    return cautioningInRecovery;
  }
}
