package org.gradus.rule.check;

import java.util.Collection;
import org.gradus.rule.syntax.Expression;

/**
 * How large a tree is with all its definitions written out. A handful of definitions, each using
 * the one before twice, would otherwise fill the memory; a long chain of them the stack.
 *
 * @param parts the number of its parts
 * @param depth how many definitions rest on each other
 */
record TreeSize(int parts, int depth) {

  static final int MOST_PARTS = 10_000;
  static final int MOST_DEEP = 100;

  /** For all texts of one protocol; a long one has some thousands. */
  static final int MOST_PARTS_OF_ALL = 500_000;

  static TreeSize of(Expression root, Collection<PartMeaning> meanings) {
    int parts = count(root);
    int depth = 0;
    for (PartMeaning meaning : meanings) {
      for (Checked text : meaning.texts()) {
        parts += text.extent().parts;
        depth = Math.max(depth, text.extent().depth + 1);
      }
    }
    return new TreeSize(parts, depth);
  }

  private static int count(Expression part) {
    return 1 + part.parts().stream().mapToInt(TreeSize::count).sum();
  }
}
