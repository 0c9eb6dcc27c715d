package org.gradus.knowledge;

import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Problems;
import org.gradus.rule.Condition;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.check.Layout;
import org.gradus.rule.check.Vocabulary;
import org.gradus.rule.syntax.Expression;
import org.gradus.words.Message;

/** A condition of a knowledge file, asked on values given by name. Immutable. */
// Members that show types of closed packages are for the engine and its tools.
@SuppressWarnings("exports")
public final class Proviso {

  private final Condition condition;
  private final Layout layout;
  private final String text;

  private Proviso(Condition condition, Layout layout, String text) {
    this.condition = condition;
    this.layout = layout;
    this.text = text;
  }

  /** Checks and plans a condition; notes what is wrong with it and gives nothing if anything is. */
  public static Optional<Proviso> of(Expression text, Vocabulary vocabulary, Problems problems) {
    Layout.Builder layout = new Layout.Builder();
    return Condition.of(text, vocabulary, layout, problems)
        .map(condition -> new Proviso(condition, layout.build(), text.span().inOneLine()));
  }

  /** Its answer on what is given. */
  public Truth test(Given given) {
    return condition.test(given.frame(layout));
  }

  /** Why it does not hold. */
  public List<Message> against(Given given) {
    List<Gap> gaps = condition.gaps(given.frame(layout));
    return gaps.isEmpty()
        ? List.of(
            Message.of(ResultMessage.ONLY_WHEN, condition.filled(given.frame(layout)).toString()))
        : gaps.stream().map(Gap::message).toList();
  }

  @Override
  public String toString() {
    return text;
  }
}
