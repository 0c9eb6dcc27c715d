package org.gradus.library;

import java.util.Optional;
import java.util.stream.Stream;
import org.gradus.diagnostic.Span;
import org.gradus.rule.syntax.Expression;

/**
 * Looks for {@code a and b or c} without brackets: the language joins with {@code and} first, but
 * people read it either way.
 */
final class MixedLogic {

  private MixedLogic() {}

  /** The first part joined with and that stands beside an or without brackets of its own. */
  static Optional<Span> in(Expression whole) {
    Stream<Expression> beside =
        whole instanceof Expression.Or either
            ? Stream.of(either.left(), either.right())
            : Stream.empty();
    return beside
        .filter(part -> part instanceof Expression.And && !isInBrackets(part.span()))
        .map(Expression::span)
        .findFirst()
        .or(() -> whole.parts().stream().flatMap(part -> in(part).stream()).findFirst());
  }

  private static boolean isInBrackets(Span part) {
    String text = part.file().text();
    int before = part.start() - 1;
    while (before >= 0 && Character.isWhitespace(text.charAt(before))) {
      before--;
    }
    int after = part.end();
    while (after < text.length() && Character.isWhitespace(text.charAt(after))) {
      after++;
    }
    return before >= 0
        && after < text.length()
        && text.charAt(before) == '('
        && text.charAt(after) == ')';
  }
}
