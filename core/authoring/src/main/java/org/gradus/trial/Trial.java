package org.gradus.trial;

import static java.util.Objects.requireNonNull;

import java.io.Serializable;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.function.UnaryOperator;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.gradus.diagnostic.ValueRefused;
import org.gradus.protocol.Protocol;

/**
 * Virtual people take a test.
 *
 * <pre>{@code
 * Trial trial = Trial.of(protocol, Population.read(Bundled.people())).people(10_000).seed(42);
 * Summary summary = trial.run(Stream::parallel);         // or trial.run() on one core
 * System.out.println(summary);
 * }</pre>
 *
 * <p>A trial shows how a protocol behaves on people as they are described in a file. It says
 * nothing about any real person, and takes the place of no study.
 */
public final class Trial {

  // Large enough to be worth a task, small enough to share out evenly.
  private static final int PART = 250;
  private static final int DECADE = 10;
  private static final int DRAWS = 1000;
  private static final String WOMEN = "women";
  private static final String MEN = "men";
  private static final long GOLDEN = 0x9E3779B97F4A7C15L;

  private final Protocol protocol;
  private final Population population;
  private final int people;
  private final long seed;
  private final Counting counting;

  private Trial(
      Protocol protocol, Population population, int people, long seed, Counting counting) {
    this.protocol = protocol;
    this.population = population;
    this.people = people;
    this.seed = seed;
    this.counting = counting;
  }

  /**
   * A trial of 1,000 people with the seed 1, whose pulse is read as the protocol says.
   *
   * @throws org.gradus.diagnostic.NotFound when virtual people cannot take the test, with the key
   *     of the protocol or of the population file that is in the way
   */
  public static Trial of(Protocol protocol, Population population) {
    Demands.refuseUnlessPossible(protocol, population.physiology());
    return new Trial(protocol, population, 1000, 1, new Counting.AsScheduled());
  }

  /**
   * With so many people.
   *
   * @throws ValueRefused unless it is at least one
   */
  public Trial people(int number) {
    if (number < 1) {
      throw new ValueRefused(
          "the number of people of a trial", Integer.toString(number), "give at least 1");
    }
    return new Trial(protocol, population, number, seed, counting);
  }

  /** With other people. */
  public Trial seed(long other) {
    return new Trial(protocol, population, people, other, counting);
  }

  /** With another way to read the heart rate. */
  public Trial counting(Counting other) {
    requireNonNull(other, "other");
    return new Trial(protocol, population, people, seed, other);
  }

  /** A part of a trial, to be carried out by any thread. */
  public record Part(int from, int to) implements Serializable {}

  /** How one person fares; the same whenever it is asked. */
  public Run person(int index) {
    return run(index, new Demands(protocol));
  }

  private Run run(int index, Demands demands) {
    SplittableRandom random = new SplittableRandom(seed + GOLDEN * (index + 1L));
    return Tester.test(
        protocol, demands, population.physiology(), counting, traits(random), random);
  }

  // Who is too young or too old for the protocol is left out, and somebody else is drawn.
  private Traits traits(SplittableRandom random) {
    Traits traits = population.draw(random.split());
    for (int i = 0; i < DRAWS && !isFor(traits); i++) {
      traits = population.draw(random.split());
    }
    return traits;
  }

  private boolean isFor(Traits traits) {
    return protocol.eligibility().includes(traits.of(Trait.AGE));
  }

  /**
   * How many people each way of reading the heart rate holds although they are steady.
   *
   * @param ways the ways of reading, each tried on the same people
   * @param how how the work is shared out, as in {@link #run(UnaryOperator)}
   */
  public List<FalseHolds> falseHolds(List<Counting> ways, UnaryOperator<Stream<Part>> how) {
    requireNonNull(how, "how");
    Trial exact = counting(new Counting.Exact());
    return ways.stream()
        .map(
            way ->
                how.apply(parts().stream())
                    .map(part -> falseHolds(exact, counting(way), part))
                    .reduce(FalseHolds.none(way), FalseHolds::and))
        .toList();
  }

  private FalseHolds falseHolds(Trial exact, Trial counted, Part part) {
    Demands demands = new Demands(protocol);
    FalseHolds holds = FalseHolds.none(counted.counting);
    for (int index = part.from(); index < part.to(); index++) {
      Run known = exact.run(index, demands);
      holds = holds.and(FalseHolds.of(counted.counting, known, counted.run(index, demands)));
    }
    return holds;
  }

  /** Everybody, one after another. */
  public Summary run() {
    return run(parts -> parts);
  }

  /**
   * Everybody, shared out as the host likes. Gradus starts no threads of its own; the result is the
   * same to the last digit however the parts are carried out.
   *
   * @param how for example {@code Stream::parallel}, or a {@code peek} that shows progress
   */
  public Summary run(UnaryOperator<Stream<Part>> how) {
    return summary(how.apply(parts().stream()).map(this::tally).toList());
  }

  /**
   * What everybody came to, put together from parts that were played anywhere, in any order: on
   * threads, or on other machines by a trial of the same protocol, people and seed. It is the
   * summary of {@link #run()}, to the last digit.
   *
   * @param tallies one for each of {@link #parts}
   * @throws ValueRefused when a part is missing, is there twice or is none of this trial
   */
  public Summary summary(Collection<PartTally> tallies) {
    List<PartTally> inOrder =
        tallies.stream().sorted(Comparator.comparingInt(tally -> tally.part().from())).toList();
    List<Part> played = inOrder.stream().map(PartTally::part).toList();
    if (!played.equals(parts())) {
      throw new ValueRefused(
          "the parts of this trial",
          played.size() + " tallies",
          "give one for each of its " + parts().size() + " parts of " + people + " people");
    }
    Map<String, Tally> groups = new LinkedHashMap<>();
    inOrder.forEach(
        part -> part.groups().forEach((name, tally) -> groups.merge(name, tally, Tally::and)));
    Map<String, Tally> ordered = new LinkedHashMap<>();
    // Everybody, then by sex, then by age.
    Stream.concat(
            Stream.of(Summary.ALL, WOMEN, MEN).filter(groups::containsKey),
            groups.keySet().stream().filter(name -> Character.isDigit(name.charAt(0))).sorted())
        .forEach(name -> ordered.put(name, groups.getOrDefault(name, Tally.NONE)));
    return new Summary(protocol.toString(), population.title(), seed, ordered);
  }

  /** The parts in which its people are played, in order. */
  public List<Part> parts() {
    return IntStream.range(0, (people + PART - 1) / PART)
        .mapToObj(part -> new Part(part * PART, Math.min(people, (part + 1) * PART)))
        .toList();
  }

  /** How many people a part has. */
  public static int size(Part part) {
    return part.to() - part.from();
  }

  /**
   * What the people of a part came to; the same whenever and wherever it is asked.
   *
   * @param part one of {@link #parts}
   */
  public PartTally tally(Part part) {
    Demands demands = new Demands(protocol);
    Map<String, Count> groups = new LinkedHashMap<>();
    for (int index = part.from(); index < part.to(); index++) {
      Run run = run(index, demands);
      int decade = run.age() / DECADE * DECADE;
      String ages = decade + " to " + (decade + DECADE - 1);
      for (String group : List.of(Summary.ALL, run.female() ? WOMEN : MEN, ages)) {
        groups.computeIfAbsent(group, name -> new Count()).add(run);
      }
    }
    Map<String, Tally> tallies = new LinkedHashMap<>();
    groups.forEach((name, count) -> tallies.put(name, count.tally()));
    return new PartTally(part, tallies);
  }
}
