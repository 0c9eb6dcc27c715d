package org.gradus.rule.random;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Function;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/**
 * The laws of this package hold for what is grown, so everything the language has must be grown. A
 * new construct, function, relation, operator, unit or view of a reading fails here until {@link
 * Grower} makes it.
 */
class GrownTest {

  private static final int SAMPLES = 3000;

  private final Set<String> grown = new TreeSet<>();

  @Test
  void everythingTheLanguageHasIsGrown() {
    Random random = new Random(1);
    for (int i = 0; i < SAMPLES; i++) {
      Sample sample = Sample.grown(Grower.Bed.EVERYTHING, random.nextBoolean(), random.nextLong());
      note(sample.tree);
      sample.world.definitions.values().forEach(this::note);
      sample.layout.demands().forEach(demand -> grown.add(demand.aspect().toString()));
    }
    assertThat(missing(constructs())).as("constructs never grown").isEmpty();
    assertThat(missing(Arrays.stream(Function.values()).map(Function::word)))
        .as("functions never grown")
        .isEmpty();
    assertThat(missing(words(Expression.Relation.values()))).as("relations never grown").isEmpty();
    assertThat(missing(words(Expression.Operator.values()))).as("operators never grown").isEmpty();
    assertThat(missing(words(Unit.values()))).as("units never grown").isEmpty();
    assertThat(missing(words(Demand.Aspect.values()))).as("views never grown").isEmpty();
    assertThat(missing(Stream.of("no value", "a definition of one line", "of several lines")))
        .as("forms of definitions never grown")
        .isEmpty();
  }

  private static Stream<String> constructs() {
    return Arrays.stream(Expression.class.getPermittedSubclasses()).map(Class::getSimpleName);
  }

  private static Stream<String> words(Object[] constants) {
    return Arrays.stream(constants).map(Object::toString);
  }

  private Set<String> missing(Stream<String> all) {
    Set<String> missing = new TreeSet<>(all.toList());
    missing.removeAll(grown);
    return missing;
  }

  private void note(World.Definition definition) {
    boolean one = definition.lines().size() == 1;
    grown.add(one ? "a definition of one line" : "of several lines");
    for (World.Line line : definition.lines()) {
      line.when().forEach(this::note);
      Optional<Expression> value = line.value();
      value.ifPresentOrElse(this::note, () -> grown.add("no value"));
    }
  }

  private void note(Expression part) {
    grown.add(part.getClass().getSimpleName());
    if (part instanceof Expression.Call call) {
      grown.add(call.function().text());
    } else if (part instanceof Expression.Comparison comparison) {
      grown.add(comparison.relation().toString());
    } else if (part instanceof Expression.Arithmetic arithmetic) {
      grown.add(arithmetic.operator().toString());
    } else if (part instanceof Expression.Literal literal) {
      grown.add(literal.quantity().unit().toString());
    }
    part.parts().forEach(this::note);
  }
}
