package org.gradus.examples.workbench;

import java.nio.file.Path;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicInteger;
import org.gradus.bundled.Bundled;
import org.gradus.diagnostic.SourceFile;
import org.gradus.history.Json;
import org.gradus.session.Times;
import org.gradus.trial.Counting;
import org.gradus.trial.FalseHolds;
import org.gradus.trial.Figures;
import org.gradus.trial.Population;
import org.gradus.trial.Run.End;
import org.gradus.trial.Summary;
import org.gradus.trial.Tally;
import org.gradus.trial.Trial;
import org.gradus.unit.Quantity;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Lets virtual people take a test. */
@Command(
    name = "trial",
    description = "Plays a test with virtual people and summarizes the results.")
final class TrialCommand implements Callable<Integer> {

  private static final int BAR = 30;
  private static final int MOST_PEOPLE = 1_000_000;
  private static final List<Integer> COUNTS = List.of(0, 6, 10, 15, 20, 30, 60);

  @Mixin private CommandContext context = new CommandContext();

  @Mixin private Settings settings = new Settings();

  @Parameters(paramLabel = "ID", description = "The protocol.")
  private String id = "";

  @Option(names = "--people", paramLabel = "N", description = "Number of people (default: 1000).")
  private int people = 1000;

  @Option(
      names = "--seed",
      paramLabel = "N",
      description = "Seed of the random people (default: 1).")
  private long seed = 1;

  @Option(
      names = "--count",
      paramLabel = "SECONDS",
      description =
          "Count the pulse for this many seconds (6, 10, 15, 20, 30 or 60); 0 reads the exact"
              + " rate (default: as the protocol says).")
  private @Nullable Integer count;

  @Option(
      names = "--false-holds",
      paramLabel = "SECONDS",
      split = ",",
      description =
          "Also show how many steady people are held by counts of these lengths in seconds: 10,15."
              + " Each plays the trial twice more.")
  private List<Integer> falseHolds = List.of();

  @Option(
      names = "--population",
      paramLabel = "FILE",
      description = "File that describes the people (default: the bundled adults).")
  private @Nullable Path population;

  @Option(names = "--one-core", description = "Do not use all cores; the result is the same.")
  private boolean oneCore;

  @Option(names = "--json", description = "Write the summary as JSON.")
  private boolean json;

  @Override
  public Integer call() {
    context.refuseUnless(
        people >= 1 && people <= MOST_PEOPLE,
        "--people " + people + ": give a number from 1 to " + MOST_PEOPLE);
    context.refuseUnless(
        count == null || COUNTS.contains(count), "--count " + count + ": give one of " + COUNTS);
    // Nobody is held by the exact rate whom the exact rate does not hold.
    List<Integer> counted = COUNTS.subList(1, COUNTS.size());
    context.refuseUnless(
        counted.containsAll(falseHolds),
        "--false-holds " + falseHolds + ": give some of " + counted);
    Population adults = Population.read(population());
    Trial trial = Trial.of(settings.in(context.protocol(id)), adults).people(people).seed(seed);
    List<Counting> ways = falseHolds.stream().map(TrialCommand::counting).toList();
    if (count != null) {
      trial = trial.counting(counting(count));
    }
    AtomicInteger done = new AtomicInteger();
    boolean shown = Terminal.isWatched() && !json;
    long start = System.nanoTime();
    progress(0, shown, start);
    Summary summary =
        trial.run(
            parts ->
                (oneCore ? parts : parts.parallel())
                    .peek(part -> progress(done.addAndGet(Trial.size(part)), shown, start)));
    if (shown) {
      // The bar has done its work.
      context.errorTerminal().print("\r\033[K");
      context.errorTerminal().flush();
    }
    List<FalseHolds> holds = trial.falseHolds(ways, parts -> oneCore ? parts : parts.parallel());
    show(summary, holds);
    if (shown) {
      context.errors().println(people + " people in " + clock(System.nanoTime() - start));
    }
    return Workbench.WELL;
  }

  private static Counting counting(int seconds) {
    return seconds == 0 ? new Counting.Exact() : new Counting.For(Duration.ofSeconds(seconds));
  }

  private void show(Summary summary, List<FalseHolds> holds) {
    if (json) {
      Map<String, Object> map = map(summary);
      map.put("false_holds", holds.stream().map(TrialCommand::map).toList());
      context.out().println(Json.write(map));
      return;
    }
    table(summary);
    holds.forEach(hold -> context.line(hold.toString()));
  }

  private static Map<String, Object> map(FalseHolds holds) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("counting", holds.counting().words());
    map.put("steady", holds.steady());
    map.put("held", holds.held());
    return map;
  }

  private void table(Summary summary) {
    if (context.columns() > 0 && context.columns() < NarrowSummary.WHOLE_TABLE) {
      NarrowSummary.lines(summary, context.columns()).forEach(context.out()::println);
    } else {
      context.out().println(summary);
    }
  }

  private SourceFile population() {
    return population == null ? Bundled.people() : CommandContext.read(population);
  }

  // On a line of its own, which is written over; only where somebody looks on. Parts end on several
  // threads, and lines must not be mixed.
  private synchronized void progress(int done, boolean shown, long start) {
    if (shown) {
      int full = (int) ((long) done * BAR / people);
      long left = done == 0 ? 0 : (System.nanoTime() - start) / done * (people - done);
      context
          .errorTerminal()
          .printf(
              Locale.ROOT,
              "\r%s%d of %d%s \033[K",
              context.columns() < BAR * 2
                  ? ""
                  : "[" + "=".repeat(full) + " ".repeat(BAR - full) + "] ",
              done,
              people,
              done == 0 ? "" : ", " + clock(left) + " left");
      context.errorTerminal().flush();
    }
  }

  private static String clock(long nanoseconds) {
    return Times.clock(Duration.ofNanos(nanoseconds));
  }

  private static Map<String, Object> map(Summary summary) {
    Map<String, Object> groups = new LinkedHashMap<>();
    summary.groups().forEach((name, tally) -> groups.put(name, map(tally)));
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("protocol", summary.protocol());
    map.put("population", summary.population());
    map.put("seed", summary.seed());
    map.put("groups", groups);
    return map;
  }

  private static Map<String, Object> map(Tally tally) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("people", tally.people());
    for (End end : End.values()) {
      map.put(end.name().toLowerCase(Locale.ROOT), tally.ended(end));
    }
    map.put("rules", tally.rules());
    map.put("recovery", tally.recoveries());
    Map<String, Object> results = new LinkedHashMap<>();
    tally.results().forEach((id, figures) -> results.put(id, map(figures)));
    map.put("results", results);
    map.put("minutes", tally.minutes());
    map.put("decisions", tally.decisions());
    map.put("marginal", tally.marginal());
    map.put("held", tally.held());
    map.put("estimates", tally.estimates());
    map.put("bias", tally.bias());
    map.put("spread", tally.spread());
    map.put("coverage", tally.coverage());
    return map;
  }

  private static Map<String, Object> map(Figures figures) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("people", figures.count());
    map.put("unit", figures.unit().symbol());
    map.put("mean", figures.mean().amount());
    map.put("spread", Double.isNaN(figures.spread()) ? null : shown(figures.spread(), figures));
    map.put("lowest", shown(figures.lowest(), figures));
    map.put("highest", shown(figures.highest(), figures));
    return map;
  }

  private static double shown(double base, Figures figures) {
    return Quantity.ofBase(base, figures.unit()).amount();
  }
}
