package org.gradus.rule.plan;

import java.math.MathContext;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.gradus.diagnostic.Span;
import org.gradus.rule.answer.Diagram;
import org.gradus.rule.answer.Diagram.Figure;
import org.gradus.rule.check.Checked;
import org.gradus.rule.check.PartMeaning;
import org.gradus.rule.check.Term;
import org.gradus.rule.plan.Underlines.Mark;
import org.gradus.rule.syntax.Expression;

/** Draws the values of a frame under texts, by evaluating the parts of a plan again. */
public final class Drawer {

  private final Frame frame;
  private final double now;
  private final Values values;
  private final Digits digits;
  private final Map<String, Figure> figures = new LinkedHashMap<>();

  private Drawer(Frame frame, double now) {
    this.frame = frame;
    this.now = now;
    this.values = new Values(frame);
    this.digits = new Digits(frame);
  }

  /**
   * Draws a checked tree.
   *
   * @param frame gives the values
   * @param whole the text to show, of which the tree is a part
   * @param now in seconds since the start; the age of a reading is counted up to it
   */
  public static Diagram draw(Checked checked, Frame frame, Span whole, double now) {
    return new Drawer(frame, now).draw(whole, checked);
  }

  private Diagram draw(Span whole, Checked checked) {
    figures.put("", new Figure("", List.of()));
    figures.put("", figure("", whole, checked));
    return new Diagram(List.copyOf(figures.values()));
  }

  private Figure figure(String name, Span whole, Checked checked) {
    OneLine line = new OneLine(whole);
    List<Mark> marks = new ArrayList<>();
    mark(checked, checked.root(), Shown.SHORT, line, marks);
    return new Figure(name, Underlines.under(line.text(), marks));
  }

  // Marks a part and the parts it is made of; how deep it is made of others, -1 for a plain figure.
  private int mark(
      Checked checked, Expression part, MathContext shown, OneLine line, List<Mark> marks) {
    if (part instanceof Expression.Literal) {
      return -1;
    }
    MathContext inside = digits.inside(checked, part, shown);
    int height = -1;
    for (Expression inner : inner(checked, part)) {
      height = Math.max(height, mark(checked, inner, inside, line, marks));
    }
    // The inner links of a chain of products have no kind, and so no value that could be shown.
    if (checked.typeOf(part).isEmpty()) {
      return height;
    }
    height++;
    String value = values.of(checked, part, shown);
    List<String> words = new ArrayList<>(List.of(value));
    words.addAll(notes(checked, part));
    marks.add(new Mark(line.at(part.span().start()), line.at(part.span().end()), height, words));
    if (checked.meaning(part).orElse(null) instanceof PartMeaning.Use use
        && !figures.containsKey(use.term().name())) {
      define(use.term());
    }
    return height;
  }

  // Where a line or a table is read is a value of its own; the other arguments are only names.
  private static List<Expression> inner(Checked checked, Expression part) {
    if (!Filler.isLeaf(checked, part)) {
      return part.parts();
    }
    return part instanceof Expression.Call call && Filler.isReadAt(checked.meaningOf(call))
        ? List.of(call.arguments().get(call.arguments().size() - 1))
        : List.of();
  }

  private List<String> notes(Checked checked, Expression part) {
    // A setting is always known and has no age.
    if (!Filler.isLeaf(checked, part) || checked.meaningOf(part).isFixed()) {
      return List.of();
    }
    if (checked.meaningOf(part) instanceof PartMeaning.Slot slot && frame.isKnown(slot.index())) {
      double age = now - frame.taken(slot.index());
      return Double.isNaN(age) ? List.of() : List.of(age(age));
    }
    return NodeBuilder.plan(checked, part).gaps(frame).stream()
        .map(gap -> gap.cause().words())
        .distinct()
        .toList();
  }

  private static String age(double seconds) {
    long whole = Math.round(seconds);
    return whole < 60 ? whole + " s old" : Shown.time(whole) + " old";
  }

  private void define(Term term) {
    Alternatives alternatives = NodeBuilder.alternatives(term);
    Alternatives.Line chosen = alternatives.chosen(frame);
    if (chosen == null) {
      return;
    }
    Term.Alternative alternative = term.alternatives().get(alternatives.lines().indexOf(chosen));
    String label = alternative.label().isEmpty() ? "" : ", by " + alternative.label() + ",";
    // Takes its place before those that it uses itself.
    figures.put(term.name(), new Figure(term.name(), List.of()));
    alternative
        .value()
        .ifPresentOrElse(
            value ->
                figures.put(term.name(), figure(term.name() + label, value.root().span(), value)),
            () -> figures.put(term.name(), new Figure(term.name(), List.of("none in this case"))));
  }
}
