package org.gradus.rule.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.gradus.rule.Condition;
import org.gradus.rule.Formula;
import org.gradus.rule.Resolution;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Outcomes;
import org.gradus.rule.plan.Frame;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** Says what an example comes to, in the words and to the digits the page uses for it. */
final class Answers {

  private final List<String> expected;

  Answers(List<String> expected) {
    this.expected = expected;
  }

  private boolean wants(String start) {
    return expected.stream().anyMatch(line -> line.startsWith(start));
  }

  List<String> of(Condition condition, Frame frame) {
    List<String> said = new ArrayList<>();
    Truth truth = condition.test(frame);
    said.add(
        truth.isKnown() ? truth == Truth.TRUE ? "= yes" : "= no" : unknown(condition.gaps(frame)));
    if (wants("shown: ")) {
      said.add("shown: " + condition.filled(frame));
    }
    if (wants("| ")) {
      condition.diagram(frame, 0).toString().lines().forEach(line -> said.add("| " + line));
    }
    if (wants("firm") || wants("marginal: ")) {
      Box box = Resolution.around(frame);
      Outcomes outcomes = condition.outcomes(box);
      boolean firm =
          Stream.of(outcomes.canHold(), outcomes.canFail(), outcomes.canBeUnknown())
                  .filter(possible -> possible)
                  .count()
              == 1;
      said.add(firm ? "firm" : "marginal: " + String.join("; ", condition.undecided(box)));
    }
    return said;
  }

  List<String> of(Formula formula, Frame frame) {
    List<String> said = new ArrayList<>();
    double value = formula.value(frame);
    said.add(Double.isNaN(value) ? unknown(formula.gaps(frame)) : "= " + shown(formula, value));
    if (wants("shown: ")) {
      said.add("shown: " + formula.filled(frame));
    }
    return said;
  }

  // In the unit and to the digits of the page.
  private String shown(Formula formula, double value) {
    String wanted = expected.isEmpty() ? "" : expected.get(0).substring(2);
    String number = wanted.split(" ", 2)[0];
    int decimals = number.contains(".") ? number.length() - number.indexOf('.') - 1 : 0;
    Unit unit = formula.kind().base();
    if (wanted.contains(" ")) {
      Unit named = Unit.named(wanted.split(" ", 2)[1]).orElse(unit);
      unit = named.kind() == unit.kind() ? named : unit;
    }
    double amount = Quantity.ofBase(value, unit).amount();
    String digits = String.format(Locale.ROOT, "%." + decimals + "f", amount);
    return unit.symbol().isEmpty() ? digits : digits + " " + unit.symbol();
  }

  private static String unknown(List<Gap> gaps) {
    return "= unknown: "
        + gaps.stream()
            .map(gap -> gap + " (" + when(gap.settle()) + ")")
            .collect(Collectors.joining(", "));
  }

  private static String when(Gap.Settle settle) {
    if (settle instanceof Gap.Settle.At at) {
      long seconds = at.time().toSeconds();
      return "at " + seconds / 60 + String.format(Locale.ROOT, ":%02d", seconds % 60);
    }
    return settle instanceof Gap.Settle.Now ? "now" : "never";
  }
}
