package org.gradus.rule.plan;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.LinkedHashMap;
import java.util.Map;
import org.gradus.diagnostic.Span;
import org.gradus.rule.check.Checked;
import org.gradus.rule.check.Meaning;
import org.gradus.rule.check.Term;
import org.gradus.rule.check.Type;
import org.gradus.rule.plan.Filled.Definition;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.Expression.Relation;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;

/** Fills the numbers of a frame into texts, by evaluating the parts of a plan again. */
final class Filler {

  // What a person can take in at a glance, and what a comparison can tell apart.
  private static final MathContext SHORT = new MathContext(6);
  private static final MathContext FULL = new MathContext(12);

  private final Frame frame;
  private final Frame shortened;
  private final Map<String, Definition> definitions = new LinkedHashMap<>();

  Filler(Frame frame) {
    this.frame = frame;
    this.shortened = shortened(frame);
  }

  private static Frame shortened(Frame frame) {
    Frame shortened = new Frame(frame.layout());
    for (int slot = 0; slot < frame.layout().size(); slot++) {
      if (frame.isKnown(slot)) {
        shortened.set(slot, rounded(frame.value(slot), SHORT), 0);
      }
    }
    return shortened;
  }

  Filled fill(Checked checked) {
    String text = text(checked, checked.root(), SHORT);
    return new Filled(text, definitions.values().stream().toList());
  }

  // The text of a part is its own characters with the filled texts of its leaves put in their
  // places.
  private String text(Checked checked, Expression part, MathContext digits) {
    if (isLeaf(checked, part)) {
      return leaf(checked, part, digits) + " [" + value(checked, part, digits) + "]";
    }
    MathContext inside = agrees(checked, part) ? digits : FULL;
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

  private static boolean isReadAt(Meaning meaning) {
    return meaning instanceof Meaning.Line
        || meaning instanceof Meaning.Reading
        || meaning instanceof Meaning.Solution;
  }

  private static boolean isLeaf(Checked checked, Expression part) {
    return part instanceof Expression.Reference
        || (part instanceof Expression.Call && !(checked.meaningOf(part) instanceof Meaning.Plain));
  }

  // Whether somebody who calculates with the short numbers comes to the same verdict.
  private boolean agrees(Checked checked, Expression part) {
    if (part instanceof Expression.Comparison test) {
      return agrees(checked, test.relation(), test.left(), test.right());
    } else if (part instanceof Expression.Between between) {
      return agrees(checked, Relation.AT_LEAST, between.value(), between.low())
          && agrees(checked, Relation.AT_MOST, between.value(), between.high());
    }
    return true;
  }

  private boolean agrees(Checked checked, Relation relation, Expression left, Expression right) {
    NumberNode first = (NumberNode) Planner.plan(checked, left);
    NumberNode second = (NumberNode) Planner.plan(checked, right);
    double a = first.value(frame);
    double b = second.value(frame);
    if (Double.isNaN(a) || Double.isNaN(b)) {
      return true;
    }
    boolean verdict = TruthNode.Compare.holds(relation, a, b);
    double shortA = first.value(shortened);
    double shortB = second.value(shortened);
    return TruthNode.Compare.holds(relation, rounded(a, SHORT), rounded(b, SHORT)) == verdict
        && TruthNode.Compare.holds(relation, shortA, shortB) == verdict;
  }

  private String value(Checked checked, Expression leaf, MathContext digits) {
    Meaning meaning = checked.meaningOf(leaf);
    if (meaning instanceof Meaning.Fixed fixed) {
      return fixed.value().toString();
    } else if (meaning instanceof Meaning.FixedWord word) {
      return word.word();
    } else if (meaning instanceof Meaning.Use use) {
      return definition(use.term(), digits);
    } else if (meaning instanceof Meaning.Slot slot
        && slot.demand().type() instanceof Type.Choice) {
      return shown(slot.demand().type(), frame.value(slot.index()), digits);
    }
    Planned node = Planner.plan(checked, leaf);
    Type type = checked.typeOf(leaf).orElseThrow();
    return node instanceof NumberNode number
        ? shown(type, number.value(frame), digits)
        : shown(type, number(((TruthNode) node).truth(frame)), digits);
  }

  private String definition(Term term, MathContext digits) {
    Alternatives alternatives = Planner.alternatives(term);
    double found =
        term.type().equals(Type.CONDITION)
            ? number(alternatives.truth(frame))
            : alternatives.number(frame);
    String value = shown(term.type(), found, digits);
    if (!definitions.containsKey(term.name())) {
      // Takes its place before those that it uses itself.
      definitions.put(term.name(), new Definition(term.name(), value, ""));
      definitions.put(term.name(), new Definition(term.name(), value, how(term, alternatives)));
    }
    return value;
  }

  private String how(Term term, Alternatives alternatives) {
    Alternatives.Line chosen = alternatives.chosen(frame);
    if (chosen == null) {
      return alternatives.open(frame).isPresent() ? "open" : "none";
    }
    Term.Alternative alternative = term.alternatives().get(alternatives.lines().indexOf(chosen));
    String text = alternative.value().map(value -> text(value, value.root(), SHORT)).orElse("none");
    return alternative.label().isEmpty() ? text : alternative.label() + ": " + text;
  }

  // A truth as a slot holds it.
  private static double number(byte answer) {
    return answer == Truth.OPEN ? Double.NaN : answer == Truth.YES ? 1 : 0;
  }

  private static String shown(Type type, double value, MathContext digits) {
    if (Double.isNaN(value)) {
      return "unknown";
    } else if (type instanceof Type.Measure measure) {
      return quantity(measure.kind(), value, digits);
    } else if (type instanceof Type.Choice choice) {
      return choice.options().get((int) value);
    }
    return value != 0 ? "yes" : "no";
  }

  private static String quantity(Kind kind, double value, MathContext digits) {
    if (kind == Kind.TIME && value >= 0 && value == Math.rint(value)) {
      return time((long) value);
    }
    return Quantity.of(rounded(value, digits), kind.base()).toString();
  }

  private static double rounded(double value, MathContext digits) {
    return new BigDecimal(value).round(digits).doubleValue();
  }

  // As on a stopwatch; from an hour on it is no time of a stage, and minutes would be misread.
  private static String time(long seconds) {
    if (seconds >= 3600) {
      return seconds % 3600 == 0
          ? seconds / 3600 + " h"
          : seconds / 3600 + ":" + twoDigits(seconds / 60 % 60) + ":" + twoDigits(seconds % 60);
    }
    return seconds / 60 + ":" + twoDigits(seconds % 60);
  }

  private static String twoDigits(long number) {
    return Long.toString(100 + number).substring(1);
  }

  private static String oneLine(String text) {
    return text.replaceAll("\\s+", " ");
  }
}
