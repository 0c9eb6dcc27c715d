package org.gradus.rule;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.gradus.rule.check.Checked;
import org.gradus.rule.check.PartMeaning;
import org.gradus.rule.check.Term;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.Expression.Literal;

/**
 * What a condition or a value is made of, for those who look at rules rather than carry them out.
 *
 * @param comparisons every comparison in it, also by way of definitions, once
 * @param figures the figures written out in its own text
 * @param definitions the definitions it uses, directly or not, each with the figures written out in
 *     its text
 * @param words the settings it asks for their word
 */
// Members that show types of closed packages are for the engine and its tools.
@SuppressWarnings("exports")
public record Anatomy(
    List<Compared> comparisons,
    List<Literal> figures,
    Map<String, List<Literal>> definitions,
    Set<String> words) {

  public Anatomy {
    requireNonNull(comparisons, "comparisons");
    requireNonNull(definitions, "definitions");
    requireNonNull(figures, "figures");
    requireNonNull(words, "words");
    comparisons = List.copyOf(comparisons);
    figures = List.copyOf(figures);
    definitions = Collections.unmodifiableMap(new LinkedHashMap<>(definitions));
    words = Set.copyOf(words);
  }

  static Anatomy of(Checked checked) {
    Dissection dissection = new Dissection();
    dissection.look(checked, checked.root(), dissection.own);
    return new Anatomy(
        dissection.comparisons, dissection.own, dissection.definitions, dissection.words);
  }

  /** Collects on one walk. A definition that is used twice is looked at once. */
  private static final class Dissection {
    private final List<Compared> comparisons = new ArrayList<>();
    private final List<Literal> own = new ArrayList<>();
    private final Map<String, List<Literal>> definitions = new LinkedHashMap<>();
    private final Set<String> words = new HashSet<>();
    private final Set<Term> seen = new HashSet<>();

    private void look(Checked checked, Expression part, List<Literal> figures) {
      part.comparisons().forEach(comparison -> compared(checked, comparison));
      if (part instanceof Literal literal) {
        figures.add(literal);
      } else if (part instanceof Expression.Is is
          && checked.meaningOf(is.subject()) instanceof PartMeaning.FixedWord) {
        words.add(((Expression.Reference) is.subject()).name());
      } else if (part instanceof Expression.Reference
          && checked.meaningOf(part) instanceof PartMeaning.Use use) {
        look(use.term());
      }
      // What a function over a signal takes is a name, and no part with a meaning.
      boolean ofSlots =
          part instanceof Expression.Call
              && !(checked.meaningOf(part) instanceof PartMeaning.Plain
                  || checked.meaningOf(part) instanceof PartMeaning.Reading);
      if (part instanceof Expression.Call call && ofSlots) {
        call.arguments().stream()
            .filter(Literal.class::isInstance)
            .forEach(argument -> figures.add((Literal) argument));
      } else if (part instanceof Expression.Call call
          && checked.meaningOf(part) instanceof PartMeaning.Reading) {
        look(checked, call.arguments().get(1), figures);
      } else if (!(part instanceof Expression.Is)) {
        part.parts().forEach(inner -> look(checked, inner, figures));
      }
    }

    private void compared(Checked checked, Expression.Comparison comparison) {
      comparisons.add(
          new Compared(
              comparison.span(),
              comparison.relation(),
              Formula.of(checked.at(comparison.left())),
              Formula.of(checked.at(comparison.right()))));
    }

    private void look(Term term) {
      if (!seen.add(term)) {
        return;
      }
      List<Literal> figures = new ArrayList<>();
      definitions.put(term.name(), figures);
      for (Term.Alternative alternative : term.alternatives()) {
        // What is chosen from a list has its figures in a file of its own.
        boolean named = !alternative.label().isEmpty();
        alternative.when().forEach(when -> look(when, when.root(), figures));
        alternative
            .value()
            .ifPresent(value -> look(value, value.root(), named ? new ArrayList<>() : figures));
      }
    }
  }
}
