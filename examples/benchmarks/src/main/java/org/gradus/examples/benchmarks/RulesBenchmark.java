package org.gradus.examples.benchmarks;

import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** One pass over all rules of a stage of the standard walk, averaged over many moments. */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(3)
public class RulesBenchmark {

  static final int MOMENTS = 1024;

  /** What is measured; every one in processes of its own. */
  @Param public Subject subject = Subject.HAND_WRITTEN;

  private Evaluator evaluator = moment -> 0;

  /** Builds what is measured. */
  @Setup
  public void build() {
    evaluator = subject.over(MOMENTS);
  }

  /** All rules of all moments. */
  @Benchmark
  @OperationsPerInvocation(MOMENTS)
  public long pass() {
    long all = 0;
    for (int i = 0; i < MOMENTS; i++) {
      all += evaluator.pass(i);
    }
    return all;
  }
}
