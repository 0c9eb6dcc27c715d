package org.gradus.protocol;

import java.util.List;

/**
 * The rules of a protocol by when they are looked at.
 *
 * @param before before the first stage
 * @param anyTime after every event
 * @param stageEnd when a stage is due to end, for stages without a list of their own
 * @param recovery while the person recovers
 * @param result when the result is worked out
 */
public record RuleBook(
    List<ProtocolRule> before,
    List<ProtocolRule> anyTime,
    List<ProtocolRule> stageEnd,
    List<ProtocolRule> recovery,
    List<ProtocolRule> result) {

  public RuleBook {
    before = List.copyOf(before);
    anyTime = List.copyOf(anyTime);
    stageEnd = List.copyOf(stageEnd);
    recovery = List.copyOf(recovery);
    result = List.copyOf(result);
  }
}
