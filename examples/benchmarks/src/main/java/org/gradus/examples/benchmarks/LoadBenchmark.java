package org.gradus.examples.benchmarks;

import java.util.List;
import java.util.concurrent.TimeUnit;
import org.gradus.bundled.Bundled;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** Reading, checking, proving and planning the bundled files. */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(3)
public class LoadBenchmark {

  private final List<SourceFile> files = Bundled.files();

  /** All files, already in memory. */
  @Benchmark
  public Library load() {
    return Library.of(files);
  }
}
