package org.gradus.examples.benchmarks;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Starts fresh processes and takes the time until they have printed a line. */
final class StartUp {

  private static final int RUNS = 15;

  private StartUp() {}

  /** Milliseconds from the start of a process to its first decision; the median of several. */
  static double toFirstDecision() {
    return median();
  }

  /** Milliseconds from the start of a process to its first line, whatever it is. */
  static double toFirstLine() {
    return median("started");
  }

  private static double median(String... arguments) {
    double[] times = new double[RUNS];
    Arrays.setAll(times, run -> milliseconds(arguments));
    Arrays.sort(times);
    return times[RUNS / 2];
  }

  private static double milliseconds(String... arguments) {
    List<String> command = new ArrayList<>(Processes.java(FirstDecision.class));
    command.addAll(List.of(arguments));
    long start = System.nanoTime();
    try {
      Process process = new ProcessBuilder(command).start();
      try (BufferedReader lines = process.inputReader(StandardCharsets.UTF_8)) {
        if (lines.readLine() == null) {
          throw new IllegalStateException("nothing printed by " + command);
        }
        return (System.nanoTime() - start) / 1e6;
      } finally {
        process.destroy();
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
