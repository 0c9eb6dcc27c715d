package org.gradus.rule.plan;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.LinkedHashMap;
import java.util.Map;
import org.gradus.rule.check.Checked;
import org.gradus.rule.check.Meaning;
import org.gradus.rule.check.Term;
import org.gradus.rule.check.Type;
import org.gradus.rule.plan.Filled.Definition;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;

/** Fills the numbers of a frame into texts, by evaluating the parts of a plan again. */
final class Filler {

  private final Frame frame;
  private final Map<String, Definition> definitions = new LinkedHashMap<>();

  Filler(Frame frame) {
    this.frame = frame;
  }

  Filled fill(Checked checked) {
    String text = text(checked, checked.root());
    return new Filled(text, definitions.values().stream().toList());
  }

  // The text of a part is its own characters with the filled texts of its leaves put in their
  // places.
  private String text(Checked checked, Expression part) {
    StringBuilder filled = new StringBuilder();
    int at = part.span().start();
    if (isLeaf(checked, part)) {
      return oneLine(part.span().text()) + " [" + value(checked, part) + "]";
    }
    for (Expression inner : part.parts()) {
      filled.append(part.span().file().text(), at, inner.span().start());
      filled.append(text(checked, inner));
      at = inner.span().end();
    }
    filled.append(part.span().file().text(), at, part.span().end());
    return oneLine(filled.toString());
  }

  private static boolean isLeaf(Checked checked, Expression part) {
    return part instanceof Expression.Reference
        || (part instanceof Expression.Call && !(checked.meaningOf(part) instanceof Meaning.Plain));
  }

  private String value(Checked checked, Expression leaf) {
    Meaning meaning = checked.meaningOf(leaf);
    if (meaning instanceof Meaning.Fixed fixed) {
      return fixed.value().toString();
    } else if (meaning instanceof Meaning.FixedWord word) {
      return word.word();
    } else if (meaning instanceof Meaning.Use use) {
      return definition(use.term());
    } else if (meaning instanceof Meaning.Difference difference) {
      double change =
          frame.value(difference.now().index()) - frame.value(difference.earlier().index());
      return shown(difference.now().demand().type(), change);
    } else if (meaning instanceof Meaning.Line line) {
      NumberNode.OnLine node = (NumberNode.OnLine) Planner.plan(checked, leaf);
      return shown(line.meanY().demand().type(), node.value(frame));
    }
    Meaning.Slot slot = (Meaning.Slot) meaning;
    return shown(slot.demand().type(), frame.value(slot.index()));
  }

  private String definition(Term term) {
    Alternatives alternatives = Planner.alternatives(term);
    String value = shown(term.type(), alternatives.value(frame));
    if (!definitions.containsKey(term.name())) {
      definitions.put(term.name(), new Definition(term.name(), value, ""));
      definitions.put(term.name(), new Definition(term.name(), value, how(term, alternatives)));
    }
    return value;
  }

  private String how(Term term, Alternatives alternatives) {
    int chosen = alternatives.lines().indexOf(alternatives.chosen(frame));
    if (chosen < 0) {
      return "open";
    }
    Term.Alternative alternative = term.alternatives().get(chosen);
    String text = alternative.value().map(value -> text(value, value.root())).orElse("none");
    return alternative.label().isEmpty() ? text : alternative.label() + ": " + text;
  }

  static String shown(Type type, double value) {
    if (Double.isNaN(value)) {
      return "unknown";
    } else if (type instanceof Type.Measure measure) {
      return quantity(measure.kind(), value);
    } else if (type instanceof Type.Choice choice) {
      return choice.options().get((int) value);
    }
    return value != 0 ? "yes" : "no";
  }

  private static String quantity(Kind kind, double value) {
    if (kind == Kind.TIME && value >= 0 && value == Math.rint(value)) {
      return clock((long) value);
    }
    double shortened = new BigDecimal(value).round(new MathContext(6)).doubleValue();
    return Quantity.of(shortened, kind.base()).toString();
  }

  private static String clock(long seconds) {
    String rest = Long.toString(100 + seconds % 60).substring(1);
    return seconds / 60 + ":" + rest;
  }

  private static String oneLine(String text) {
    return text.replaceAll("\\s+", " ");
  }
}
