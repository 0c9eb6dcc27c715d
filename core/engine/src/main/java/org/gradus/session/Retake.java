package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gradus.protocol.ProtocolRule;
import org.gradus.rule.answer.Gap;

/**
 * Readings to be taken a second time, because a rule that ends the exercise holds on one.
 *
 * @param rule of the rules that wait, the one whose wait is over first
 * @param gaps what to read, for all of them
 * @param until when the wait of that rule is over
 */
record Retake(ProtocolRule rule, List<Gap> gaps, Duration until) {

  Verdict verdict() {
    return new Verdict.Measure(gaps, Optional.of(until));
  }

  static Optional<Retake> of(TestState state, Duration time) {
    List<ProtocolRule> waiting = new ArrayList<>();
    for (ProtocolRule rule : StopMonitor.ending(state)) {
      if (state.watches.of(rule).waits(time)) {
        waiting.add(rule);
      }
    }
    if (waiting.isEmpty()) {
      return Optional.empty();
    }
    Set<Gap> gaps = new LinkedHashSet<>();
    waiting.forEach(rule -> gaps.addAll(gaps(rule, state)));
    return waiting.stream()
        .min(Comparator.comparing(rule -> until(rule, state)))
        .map(first -> new Retake(first, List.copyOf(gaps), until(first, state)));
  }

  private static Duration until(ProtocolRule rule, TestState state) {
    return state.watches.of(rule).second().orElseThrow().until();
  }

  private static List<Gap> gaps(ProtocolRule rule, TestState state) {
    return state.watches.of(rule).second().stream()
        .flatMap(second -> second.awaited().stream())
        .map(Retake::unconfirmed)
        .toList();
  }

  /** What is missing as long as a signal was not read a second time. */
  static Gap unconfirmed(String signal) {
    return Gap.now(signal, Gap.Cause.UNCONFIRMED);
  }

  /** The signals a rule asks for, in order of the alphabet. */
  static List<String> signals(ProtocolRule rule, TestState state) {
    return rule.rule().condition().stream()
        .flatMap(condition -> Grounds.signals(condition, state.protocol.wiring()).stream())
        .toList();
  }
}
