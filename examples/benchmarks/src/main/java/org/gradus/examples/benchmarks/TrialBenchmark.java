package org.gradus.examples.benchmarks;

import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.gradus.bundled.Bundled;
import org.gradus.trial.Population;
import org.gradus.trial.Summary;
import org.gradus.trial.Trial;
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

/**
 * Virtual people take the standard walk: every reading when it is due, every decision followed, an
 * estimate with its interval for each. With the collector for throughput, as the workbench has it:
 * trials make much garbage that nothing outlives.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.Throughput)
@OutputTimeUnit(TimeUnit.SECONDS)
@Warmup(iterations = 5, time = 2)
@Measurement(iterations = 5, time = 2)
@Fork(value = 3, jvmArgsAppend = "-XX:+UseParallelGC")
public class TrialBenchmark {

  static final int PEOPLE = 4000;

  /** On how many cores. */
  @Param({"one", "all"})
  public String cores = "one";

  private final Trial trial =
      Trial.of(
              Bundled.library().protocol("graded-walk-standard"), Population.read(Bundled.people()))
          .people(PEOPLE);

  /** A trial of as many people as one operation counts. */
  @Benchmark
  @OperationsPerInvocation(PEOPLE)
  public Summary take() {
    return cores.equals("one") ? trial.run() : trial.run(Stream::parallel);
  }
}
