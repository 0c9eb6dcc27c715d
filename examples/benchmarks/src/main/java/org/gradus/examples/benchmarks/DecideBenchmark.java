package org.gradus.examples.benchmarks;

import java.time.Duration;
import java.util.concurrent.TimeUnit;
import org.gradus.session.Decision;
import org.gradus.session.Session;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * One decision at the end of a stage: frames, all rules, firmness, reasons in words. Early and late
 * in a long test, since what it costs should hang on what is known and not on how long it went.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(3)
public class DecideBenchmark {

  /** The minute of the test. */
  @Param({"3", "30"})
  public int minute = 3;

  private Session session = LongTest.until(0);
  private Duration now = Duration.ZERO;

  /** Plays the test up to the minute. */
  @Setup
  public void play() {
    session = LongTest.until(minute);
    now = Duration.ofMinutes(minute);
  }

  /** Pure: asking again changes nothing. */
  @Benchmark
  public Decision decide() {
    return session.decide(now);
  }
}
