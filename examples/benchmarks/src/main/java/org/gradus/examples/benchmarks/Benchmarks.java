package org.gradus.examples.benchmarks;

import org.openjdk.jmh.profile.GCProfiler;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.options.OptionsBuilder;

/** Tmp. */
public final class Benchmarks {

  private Benchmarks() {}

  /** Tmp. */
  public static void main(String[] arguments) throws Exception {
    Subject.refuseDifferent(RulesBenchmark.MOMENTS);
    new Runner(
            new OptionsBuilder()
                .include(RulesBenchmark.class.getSimpleName())
                .addProfiler(GCProfiler.class)
                .build())
        .run();
  }
}
