package org.gradus.examples.workbench;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.gradus.trial.Run.End;
import org.gradus.trial.Summary;
import org.gradus.trial.Tally;

/**
 * The summary of a trial where its table does not fit: a narrower one, or a few lines for each
 * group.
 */
final class NarrowSummary {

  /** How wide the table of {@link Summary} is. */
  static final int WHOLE_TABLE = 110;

  private static final int SMALL_TABLE = 78;

  private NarrowSummary() {}

  static List<String> lines(Summary summary, int columns) {
    List<String> lines = new ArrayList<>();
    lines.add(summary.protocol() + ", " + summary.population() + ", seed " + summary.seed());
    if (columns >= SMALL_TABLE) {
      table(summary, lines);
    } else {
      summary.groups().forEach((name, tally) -> group(name, tally, lines));
    }
    lines.add("ended by (all)");
    summary
        .all()
        .rules()
        .forEach((rule, times) -> lines.add("  " + rule + " " + share(times, summary.all())));
    lines.addAll(summary.resultLines());
    lines.add(
        "Marginal decisions: "
            + percent(summary.all().marginal(), summary.all().decisions())
            + "%.");
    lines.add(
        "Bias and spread are in mL/kg/min against the true capacity, coverage is that of the true"
            + " capacity by the 95 % interval. Virtual people are no people.");
    return lines.stream().flatMap(line -> Wrap.lines(line, columns).stream()).toList();
  }

  private static void table(Summary summary, List<String> lines) {
    lines.add("");
    lines.add(
        row(
            "group", "people", "fin%", "stop%", "und%", "def%", "min", "held%", "est%", "bias",
            "spread", "cover%"));
    summary
        .groups()
        .forEach(
            (name, tally) -> {
              long people = tally.people();
              lines.add(
                  row(
                      name.replace(" to ", "-"),
                      Long.toString(people),
                      percent(tally.ended(End.FINISHED), people),
                      percent(tally.ended(End.STOPPED), people),
                      percent(tally.ended(End.UNDECIDED), people),
                      percent(tally.ended(End.DEFERRED), people),
                      number(tally.minutes()),
                      percent(tally.held(), people),
                      percent(tally.estimates(), people),
                      number(tally.bias()),
                      number(tally.spread()),
                      percent(tally.covered(), tally.judged())));
            });
    lines.add("");
    lines.add("fin, stop, und, def: finished, stopped, undecided, deferred; est: estimate");
  }

  private static String row(Object... cells) {
    return String.format(Locale.ROOT, "%-9s%7s%6s%6s%6s%6s%6s%6s%6s%6s%7s%7s", cells)
        .stripTrailing();
  }

  private static void group(String name, Tally tally, List<String> lines) {
    lines.add(name + ": " + tally.people() + " people");
    List<String> ends = new ArrayList<>();
    for (End end : End.values()) {
      ends.add(end.name().toLowerCase(Locale.ROOT) + " " + share(tally.ended(end), tally));
    }
    lines.add("  " + String.join(", ", ends));
    lines.add(
        "  "
            + String.join(
                ", ",
                number(tally.minutes()) + " min",
                "held " + share(tally.held(), tally),
                "estimates " + share(tally.estimates(), tally),
                "bias " + number(tally.bias()),
                "spread " + number(tally.spread()),
                "coverage " + percent(tally.covered(), tally.judged()) + "%"));
  }

  private static String share(long times, Tally tally) {
    return percent(times, tally.people()) + "%";
  }

  private static String percent(long part, long whole) {
    return whole == 0 ? "-" : String.format(Locale.ROOT, "%.1f", 100.0 * part / whole);
  }

  private static String number(double value) {
    return Double.isFinite(value) ? String.format(Locale.ROOT, "%.1f", value) : "-";
  }
}
