package org.gradus.rule.plan;

import java.math.MathContext;
import java.util.LinkedHashMap;
import java.util.Map;
import org.gradus.diagnostic.Span;
import org.gradus.rule.answer.Filled;
import org.gradus.rule.answer.Filled.Definition;
import org.gradus.rule.check.Checked;
import org.gradus.rule.check.PartMeaning;
import org.gradus.rule.check.Term;
import org.gradus.rule.syntax.Expression;

/** Fills the numbers of a frame into texts, by evaluating the parts of a plan again. */
public final class Filler {

  private final Frame frame;
  private final Values values;
  private final Digits digits;
  private final Map<String, Definition> definitions = new LinkedHashMap<>();

  private Filler(Frame frame) {
    this.frame = frame;
    this.values = new Values(frame);
    this.digits = new Digits(frame);
  }

  /**
   * The text of a checked tree with the numbers of a frame filled in. It is written when it is
   * asked for, since most decisions of a test are never read out; the frame must not be changed.
   */
  public static Filled fill(Checked checked, Frame frame) {
    return Filled.later(frame, () -> new Filler(frame).write(checked));
  }

  private Filled write(Checked checked) {
    String text = text(checked, checked.root(), Shown.SHORT);
    return Filled.of(text, definitions.values().stream().toList());
  }

  // The text of a part is its own characters with the filled texts of its leaves put in their
  // places.
  private String text(Checked checked, Expression part, MathContext digits) {
    if (isLeaf(checked, part)) {
      return leaf(checked, part, digits) + " [" + value(checked, part, digits) + "]";
    }
    MathContext inside = this.digits.inside(checked, part, digits);
    StringBuilder filled = new StringBuilder();
    String file = part.span().file().text();
    int at = part.span().start();
    for (Expression inner : part.parts()) {
      filled.append(file, at, inner.span().start()).append(text(checked, inner, inside));
      at = inner.span().end();
    }
    return oneLine(filled.append(file, at, part.span().end()).toString());
  }

  // Where a line or a table is read is a value of its own; what stands before it are only names.
  private String leaf(Checked checked, Expression part, MathContext digits) {
    if (part instanceof Expression.Call call && isReadAt(checked.meaningOf(call))) {
      Expression at = call.arguments().get(call.arguments().size() - 1);
      Span whole = part.span();
      String file = whole.file().text();
      String names = file.substring(whole.start(), at.span().start());
      String end = file.substring(at.span().end(), whole.end());
      return oneLine(names + text(checked, at, digits) + end);
    }
    return oneLine(part.span().text());
  }

  static boolean isReadAt(PartMeaning meaning) {
    return meaning.arguments() == PartMeaning.Arguments.LAST_IS_VALUE;
  }

  static boolean isLeaf(Checked checked, Expression part) {
    return checked
        .meaning(part)
        .filter(meaning -> meaning.arguments() != PartMeaning.Arguments.VALUES)
        .isPresent();
  }

  private String value(Checked checked, Expression leaf, MathContext digits) {
    return checked.meaningOf(leaf) instanceof PartMeaning.Use use
        ? definition(use.term(), digits)
        : values.of(checked, leaf, digits);
  }

  private String definition(Term term, MathContext digits) {
    String value = values.of(term, digits);
    if (!definitions.containsKey(term.name())) {
      // Takes its place before those that it uses itself.
      definitions.put(term.name(), new Definition(term.name(), value, ""));
      definitions.put(
          term.name(),
          new Definition(term.name(), value, how(term, NodeBuilder.alternatives(term))));
    }
    return value;
  }

  private String how(Term term, Alternatives alternatives) {
    Alternatives.Line chosen = alternatives.chosen(frame);
    if (chosen == null) {
      return alternatives.open(frame).isPresent() ? "open" : "none";
    }
    Term.Alternative alternative = term.alternatives().get(alternatives.lines().indexOf(chosen));
    String text =
        alternative.value().map(value -> text(value, value.root(), Shown.SHORT)).orElse("none");
    return alternative.label().isEmpty() ? text : alternative.label() + ": " + text;
  }

  private static String oneLine(String text) {
    return text.replaceAll("\\s+", " ");
  }
}
