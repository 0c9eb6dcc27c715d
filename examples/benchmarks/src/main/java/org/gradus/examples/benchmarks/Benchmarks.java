package org.gradus.examples.benchmarks;

import java.lang.management.ManagementFactory;
import java.util.Collection;
import java.util.EnumMap;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeMap;
import org.openjdk.jmh.profile.GCProfiler;
import org.openjdk.jmh.results.RunResult;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.RunnerException;
import org.openjdk.jmh.runner.options.OptionsBuilder;
import org.openjdk.jmh.runner.options.TimeValue;

/**
 * Runs the benchmarks and prints their results as tables: {@code rules}, {@code load}, {@code
 * decide}, {@code walk}, {@code trial}, {@code start}, {@code heap}, or {@code all} of them. With
 * {@code quick} before it, as in {@code quick-rules}, a run that takes a tenth of the time and
 * shows only whether all is in order.
 */
public final class Benchmarks {

  private static final String QUICK = "quick-";

  private final boolean quick;

  private Benchmarks(boolean quick) {
    this.quick = quick;
  }

  /**
   * Runs what the first argument names.
   *
   * @throws RunnerException when a measuring process fails
   */
  public static void main(String[] arguments) throws RunnerException {
    String wanted = arguments.length > 0 ? arguments[0] : "all";
    boolean quick = wanted.startsWith(QUICK);
    new Benchmarks(quick).run(quick ? wanted.substring(QUICK.length()) : wanted);
  }

  private void run(String wanted) throws RunnerException {
    boolean all = wanted.equals("all");
    System.out.printf(
        "Java %s, %d processors, load of the machine %.1f%n",
        System.getProperty("java.vm.version"),
        Runtime.getRuntime().availableProcessors(),
        ManagementFactory.getOperatingSystemMXBean().getSystemLoadAverage());
    if (all || wanted.equals("rules")) {
      rules();
    }
    if (all || wanted.equals("load")) {
      plain(LoadBenchmark.class);
    }
    if (all || wanted.equals("decide")) {
      plain(DecideBenchmark.class);
    }
    if (all || wanted.equals("walk")) {
      walk();
    }
    if (all || wanted.equals("trial")) {
      trial();
    }
    if (all || wanted.equals("start")) {
      start();
    }
    if (all || wanted.equals("heap")) {
      System.out.printf(
          Locale.ROOT,
          "%n| live sessions of the standard walk | heap | bytes each |%n|---|---|---|%n"
              + "| %,d | 512 MB | %s |%n",
          LiveSessions.SESSIONS,
          Processes.output(LiveSessions.class, "-Xmx512m"));
    }
  }

  private void rules() throws RunnerException {
    Subject.refuseDifferent(RulesBenchmark.MOMENTS);
    Map<Subject, RunResult> results = new EnumMap<>(Subject.class);
    for (RunResult result : measured(RulesBenchmark.class)) {
      results.put(Subject.valueOf(result.getParams().getParam("subject")), result);
    }
    RunResult gradus = found(results, Subject.GRADUS);
    RunResult plain = found(results, Subject.HAND_WRITTEN);
    System.out.printf(
        "%n| one pass over all rules | ns | against Gradus | against hand-written | bytes |%n"
            + "|---|---|---|---|---|%n");
    results.forEach(
        (subject, result) ->
            System.out.printf(
                Locale.ROOT,
                "| %s | %.1f ± %.1f | %.2f | %.1f | %.0f |%n",
                subject.label(),
                time(result),
                result.getPrimaryResult().getScoreError(),
                time(result) / time(gradus),
                time(result) / time(plain),
                allocated(result)));
  }

  private static RunResult found(Map<Subject, RunResult> results, Subject subject) {
    RunResult result = results.get(subject);
    if (result == null) {
      throw new IllegalStateException("not measured: " + subject.label());
    }
    return result;
  }

  private void plain(Class<?> benchmark) throws RunnerException {
    System.out.printf("%n| %s | µs | bytes |%n|---|---|---|%n", benchmark.getSimpleName());
    for (RunResult result : measured(benchmark)) {
      Collection<String> keys = result.getParams().getParamsKeys();
      String at = keys.isEmpty() ? "once" : "minute " + result.getParams().getParam("minute");
      System.out.printf(Locale.ROOT, "| %s | %.0f | %.0f |%n", at, time(result), allocated(result));
    }
  }

  private void walk() throws RunnerException {
    Map<String, RunResult> results = new TreeMap<>();
    measured(WalkBenchmark.class).forEach(run -> results.put(run.getParams().getParam("by"), run));
    double limit = time(Objects.requireNonNull(results.get("hand")));
    System.out.printf(
        "%n| a whole standard walk | µs | against hand-written | bytes |%n|---|---|---|---|%n");
    results.forEach(
        (by, result) ->
            System.out.printf(
                Locale.ROOT,
                "| %s | %.3f | %.0f | %.0f |%n",
                by.equals("hand") ? "hand-written Java" : "Gradus",
                time(result),
                time(result) / limit,
                allocated(result)));
  }

  private void trial() throws RunnerException {
    System.out.printf("%n| complete virtual tests | a second | bytes each |%n|---|---|---|%n");
    for (RunResult result : measured(TrialBenchmark.class)) {
      System.out.printf(
          Locale.ROOT,
          "| on %s | %,.0f ± %,.0f | %,.0f |%n",
          result.getParams().getParam("cores").equals("one") ? "one core" : "all cores",
          time(result),
          result.getPrimaryResult().getScoreError(),
          allocated(result));
    }
  }

  private static void start() {
    Map<StartUp.Way, StartUp.Took> medians = StartUp.medians();
    StartUp.Took all = took(medians, StartUp.Way.ALL);
    System.out.printf(
        "%n| a fresh process to its first decision | ms | of all files | processor ms | of all files |%n"
            + "|---|---|---|---|---|%n");
    medians.forEach(
        (way, took) ->
            System.out.printf(
                Locale.ROOT,
                "| %s | %d | %.2f | %d | %.2f |%n",
                way.label(),
                took.wall().toMillis(),
                took.wall().toNanos() / (double) all.wall().toNanos(),
                took.processor().toMillis(),
                took.processor().toNanos() / (double) all.processor().toNanos()));
  }

  private static StartUp.Took took(Map<StartUp.Way, StartUp.Took> medians, StartUp.Way way) {
    return Optional.ofNullable(medians.get(way)).orElseThrow();
  }

  private Collection<RunResult> measured(Class<?> benchmark) throws RunnerException {
    OptionsBuilder options = new OptionsBuilder();
    options.include(benchmark.getSimpleName()).addProfiler(GCProfiler.class);
    if (quick) {
      TimeValue shortly = TimeValue.milliseconds(300);
      options.forks(1).warmupIterations(3).warmupTime(shortly);
      options.measurementIterations(2).measurementTime(shortly);
    }
    return new Runner(options.build()).run();
  }

  private static double time(RunResult result) {
    return result.getPrimaryResult().getScore();
  }

  private static double allocated(RunResult result) {
    return Objects.requireNonNull(result.getSecondaryResults().get("gc.alloc.rate.norm"))
        .getScore();
  }
}
