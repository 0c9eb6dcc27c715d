package org.gradus.rule.random;

import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.stream.Collectors;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import org.gradus.rule.Condition;
import org.gradus.rule.Formula;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.check.Layout;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Kind;

/** A random condition or value with its definitions, ready to be asked, and random readings. */
final class Sample {

  private static final int LONGEST = 1500;

  final World world;
  final Expression tree;

  /** The tree as it came back from its text. */
  final Expression parsed;

  final Optional<Condition> condition;
  final Optional<Formula> formula;
  final Layout layout;
  final Readings readings;

  /** For whatever else a law needs to draw. */
  final Random random;

  private Sample(World world, Expression tree, Optional<Kind> kind, Random random) {
    this.world = world;
    this.tree = tree;
    this.random = random;
    this.parsed = world.parsed(tree);
    this.formula =
        kind.flatMap(
            wanted ->
                Formula.of(
                    parsed, List.of(wanted), world.vocabulary(), world.layout, world.problems));
    this.condition =
        kind.isPresent()
            ? Optional.empty()
            : Condition.of(parsed, world.vocabulary(), world.layout, world.problems);
    if (!world.problems.isEmpty()) {
      throw new AssertionError(world.problems.sorted().toString());
    }
    this.layout = world.layout.build();
    this.readings = Readings.random(layout, random);
  }

  static Arbitrary<Sample> samples(Grower.Bed bed) {
    return Arbitraries.oneOf(List.of(conditions(bed), values(bed)));
  }

  static Arbitrary<Sample> conditions(Grower.Bed bed) {
    return grown(bed, true);
  }

  static Arbitrary<Sample> values(Grower.Bed bed) {
    return grown(bed, false);
  }

  private static Arbitrary<Sample> grown(Grower.Bed bed, boolean condition) {
    return Arbitraries.randomValue(drawn -> grown(bed, condition, drawn.nextLong()));
  }

  /** The sample of a seed. */
  static Sample grown(Grower.Bed bed, boolean condition, long seed) {
    Random random = new Random(seed);
    World world = new World();
    Grower grower = new Grower(random, world, bed);
    for (int i = random.nextInt(4); i > 0; i--) {
      grower.define("term_" + i, random.nextInt(3));
    }
    Optional<Kind> kind = condition ? Optional.empty() : Optional.of(grower.kind());
    Expression tree = tree(grower, kind, random);
    while (Printer.text(tree).length() > LONGEST) {
      tree = tree(grower, kind, random);
    }
    return new Sample(world, tree, kind, random);
  }

  private static Expression tree(Grower grower, Optional<Kind> kind, Random random) {
    int size = random.nextInt(6);
    return kind.map(of -> grower.value(of, size)).orElseGet(() -> grower.condition(size));
  }

  /** The answer of the plan: a Boolean or a Double, or nothing when it is unknown. */
  Optional<Object> answer(Readings known) {
    return answer(known.frame());
  }

  Optional<Object> answer(Frame frame) {
    if (condition.isPresent()) {
      Truth truth = condition.get().test(frame);
      return truth.isKnown() ? Optional.of(truth == Truth.TRUE) : Optional.empty();
    }
    double value = formula.orElseThrow().value(frame);
    return Double.isNaN(value) ? Optional.empty() : Optional.of(value);
  }

  /** The answer of the second evaluator. */
  Optional<Object> twin(Readings known) {
    Twin twin = new Twin(world, known);
    return condition.isPresent()
        ? twin.truth(tree).map(answer -> answer)
        : twin.number(tree).map(answer -> answer);
  }

  List<Gap> gaps(Readings known) {
    Frame frame = known.frame();
    return condition.map(it -> it.gaps(frame)).orElseGet(() -> formula.orElseThrow().gaps(frame));
  }

  @Override
  public String toString() {
    String definitions =
        world.definitions.values().stream()
            .map(
                term ->
                    term.lines().stream()
                        .map(
                            line ->
                                line.when().stream().map(Printer::text).toList()
                                    + " "
                                    + line.value().map(Printer::text).orElse("none"))
                        .collect(Collectors.joining(" | ", term.name() + ": ", "")))
            .collect(Collectors.joining("\n"));
    return Printer.text(tree) + "\n" + definitions + "\n" + readings;
  }
}
