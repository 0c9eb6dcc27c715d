package org.gradus.examples.fleet;

import java.util.Set;
import java.util.concurrent.atomic.AtomicInteger;
import org.apache.flink.api.common.functions.MapFunction;

/**
 * Passes values on and, each time that so many have passed in this process, fails the task that
 * passes the next one.
 */
final class Mishaps<T> implements MapFunction<T, T> {

  private static final long serialVersionUID = 1L;

  /** How many values have passed, in all tasks, before and after failures. */
  static final AtomicInteger PASSED = new AtomicInteger();

  /** How many tasks have failed. */
  static final AtomicInteger FAILED = new AtomicInteger();

  private final Set<Integer> fails;

  Mishaps(Set<Integer> fails) {
    this.fails = fails;
  }

  @Override
  public T map(T value) {
    if (fails.contains(PASSED.incrementAndGet())) {
      FAILED.incrementAndGet();
      throw new IllegalStateException("a task fails on purpose");
    }
    return value;
  }
}
