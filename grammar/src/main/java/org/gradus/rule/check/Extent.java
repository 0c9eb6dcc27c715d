package org.gradus.rule.check;

import java.util.Collection;
import java.util.Optional;
import org.gradus.rule.syntax.Expression;

/**
 * How large a tree is with all its definitions written out. A handful of definitions, each using
 * the one before twice, would otherwise fill the memory; a long chain of them the stack.
 *
 * @param parts the number of its parts
 * @param depth how many definitions rest on each other
 */
record Extent(int parts, int depth) {

  static final int MOST_PARTS = 10_000;
  static final int MOST_DEEP = 100;

  /** For all texts of one protocol; a long one has some thousands. */
  static final int MOST_PARTS_OF_ALL = 500_000;

  static Extent of(Expression root, Collection<Meaning> meanings) {
    int parts = count(root);
    int depth = 0;
    for (Meaning meaning : meanings) {
      if (meaning instanceof Meaning.Use use) {
        Extent inner = of(use.term());
        parts += inner.parts;
        depth = Math.max(depth, inner.depth + 1);
      } else if (meaning instanceof Meaning.Solution solution) {
        Extent body = solution.body().extent();
        parts += 2 * body.parts; // looked at with and without the load
        depth = Math.max(depth, body.depth + 1);
      }
    }
    return new Extent(parts, depth);
  }

  private static int count(Expression part) {
    return 1 + part.parts().stream().mapToInt(Extent::count).sum();
  }

  private static Extent of(Term term) {
    int parts = 0;
    int depth = 0;
    for (Term.Alternative alternative : term.alternatives()) {
      for (Checked when : alternative.when()) {
        parts += when.extent().parts;
        depth = Math.max(depth, when.extent().depth);
      }
      Optional<Extent> value = alternative.value().map(Checked::extent);
      parts += value.map(Extent::parts).orElse(0);
      depth = Math.max(depth, value.map(Extent::depth).orElse(0));
    }
    return new Extent(parts, depth);
  }
}
