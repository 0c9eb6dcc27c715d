package org.gradus.rule.conformance;

import java.util.Optional;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.Span;
import org.gradus.rule.Rule;
import org.gradus.rule.syntax.Action;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.Selection;
import org.gradus.unit.Quantity;

/** How the cases write down what was understood and what was found wrong. */
final class Wording {

  private Wording() {}

  static String of(Rule rule) {
    return of(rule.action(), rule);
  }

  private static String of(Action action, Rule rule) {
    if (action instanceof Action.Offer offer) {
      return "offer " + of(offer.offered(), rule);
    } else if (action instanceof Action.Hold hold) {
      double seconds = rule.pause().orElseThrow().toMillis() / 1000.0;
      return "hold " + Quantity.plain(seconds) + " s, " + hold.times() + " at most";
    } else if (action instanceof Action.Change change) {
      String step = rule.step().orElseThrow().toString();
      return "change " + change.load().text() + " by " + step + ", " + change.times() + " at most";
    } else if (action instanceof Action.Advance advance) {
      return "advance" + advance.to().map(to -> " to " + to.text()).orElse("");
    } else if (action instanceof Action.StartAt start) {
      return "start at " + start.stage().text();
    }
    return action.word();
  }

  static String of(Selection selection) {
    if (selection instanceof Selection.FromEnd from) {
      return (from.last() ? "last " : "first ") + from.count() + term(from.term());
    } else if (selection instanceof Selection.All all) {
      return "all" + term(all.term()) + ", at least " + all.atLeast();
    } else if (selection instanceof Selection.One one) {
      return "the stage " + one.stage().text();
    }
    return "the moment " + ((Selection.Moment) selection).name().text();
  }

  private static String term(Optional<Expression.Name> term) {
    return term.map(name -> " that are " + name.text()).orElse("");
  }

  /**
   * Code and place: {@code "G204 at 5 mmHg"}, {@code "G201 at rpee [2]"} for the second of several,
   * {@code "G101 at the end"}, {@code "G215 at steady in steady"} for one in a definition.
   */
  static String of(Diagnostic diagnostic) {
    Span where = diagnostic.where();
    String all = where.file().text();
    String in = where.file().name().equals("text") ? "" : " in " + where.file().name();
    return diagnostic.code() + " at " + place(where, all) + in;
  }

  private static String place(Span where, String all) {
    if (where.start() == where.end()) {
      return all.substring(where.end()).isBlank() ? "the end" : "offset " + where.start();
    } else if (where.text().equals(all)) {
      return "everything";
    }
    int before = occurrences(all.substring(0, where.end()), where.text());
    String which = occurrences(all, where.text()) > 1 ? " [" + before + "]" : "";
    return where.text().replaceAll("\\s+", " ") + which;
  }

  static int occurrences(String all, String part) {
    int count = 0;
    for (int at = all.indexOf(part); at >= 0; at = all.indexOf(part, at + 1)) {
      count++;
    }
    return count;
  }
}
