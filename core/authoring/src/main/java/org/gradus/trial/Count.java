package org.gradus.trial;

import java.util.EnumMap;
import java.util.HashMap;
import java.util.Map;
import org.gradus.trial.Run.End;

/** Adds up how people fared, one after another. */
final class Count {

  private final Map<End, Long> ends = new EnumMap<>(End.class);
  private final Map<String, Long> rules = new HashMap<>();
  private long people;
  private double seconds;
  private long decisions;
  private long marginal;
  private long held;
  private long estimates;
  private double error;
  private double squares;
  private final Map<String, Figures> results = new HashMap<>();
  private final Map<String, Long> recoveries = new HashMap<>();
  private long judged;
  private long covered;

  /** With one more person. */
  void add(Run run) {
    people++;
    ends.merge(run.end(), 1L, Long::sum);
    rules.merge(run.rule(), 1L, Long::sum);
    seconds += run.exercise().toMillis() / 1000.0;
    decisions += run.decisions();
    marginal += run.marginal();
    held += run.holds() > 0 ? 1 : 0;
    double truth = run.capacity().base();
    if (run.estimate().isPresent()) {
      double off = run.estimate().get().base() - truth;
      estimates++;
      error += off;
      squares += off * off;
    }
    run.results().forEach((id, value) -> results.merge(id, Figures.of(value), Figures::and));
    run.recovery().ifPresent(word -> recoveries.merge(word, 1L, Long::sum));
    if (run.interval().isPresent()) {
      judged++;
      covered += run.interval().get().holds(run.capacity()) ? 1 : 0;
    }
  }

  /** What they came to. */
  Tally tally() {
    return new Tally(
        people,
        ends,
        rules,
        seconds,
        decisions,
        marginal,
        held,
        estimates,
        error,
        squares,
        judged,
        covered,
        results,
        recoveries);
  }
}
