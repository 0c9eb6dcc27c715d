package org.gradus.examples.benchmarks;

import java.util.List;
import java.util.concurrent.TimeUnit;
import org.gradus.bundled.Bundled;
import org.gradus.protocol.Protocol;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.infra.Blackhole;

/**
 * A whole standard walk with complete readings, by the engine and by hand. Written by hand it knows
 * one protocol and gives verdicts only: no reasons, no doubt, no record, no refusal. It is the
 * limit that the engine is held against.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(value = 2, jvmArgsAppend = "-XX:+UseParallelGC")
public class WalkBenchmark {

  static final int SHEETS = 256;

  /** How it is decided. */
  @Param({"gradus", "hand"})
  public String by = "gradus";

  private final Protocol walk = Bundled.library().protocol("graded-walk-standard");
  private final List<WalkSheet> sheets = WalkSheet.some(SHEETS, 20261201);

  /** So many whole tests. */
  @Benchmark
  @OperationsPerInvocation(SHEETS)
  public void take(Blackhole seen) {
    for (WalkSheet sheet : sheets) {
      seen.consume(by.equals("hand") ? WholeWalk.byHand(sheet) : WholeWalk.byGradus(walk, sheet));
    }
  }
}
