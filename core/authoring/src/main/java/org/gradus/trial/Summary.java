package org.gradus.trial;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.gradus.trial.Run.End;
import org.gradus.unit.Quantity;

/**
 * What a trial came to.
 *
 * @param protocol id and version
 * @param population who took it
 * @param seed the seed, to have the same people again
 * @param groups everybody, and subgroups by sex and by age, each with its tally
 */
public record Summary(String protocol, String population, long seed, Map<String, Tally> groups) {

  /** The name of the group of everybody. */
  public static final String ALL = "all";

  public Summary {
    requireNonNull(groups, "groups");
    requireNonNull(population, "population");
    requireNonNull(protocol, "protocol");
    groups = Collections.unmodifiableMap(new LinkedHashMap<>(groups));
  }

  /** Everybody. */
  public Tally all() {
    return groups.getOrDefault(ALL, Tally.NONE);
  }

  /** A table for people. */
  @Override
  public String toString() {
    StringBuilder out = new StringBuilder();
    out.append(protocol).append(", ").append(population).append(", seed ").append(seed);
    out.append("\n\n");
    out.append(
        String.format(
            Locale.ROOT,
            "%-12s%8s%9s%8s%10s%9s%9s%10s%11s%6s%8s%10s%n",
            "group",
            "people",
            "finished",
            "stopped",
            "undecided",
            "deferred",
            "minutes",
            "held",
            "estimates",
            "bias",
            "spread",
            "coverage"));
    groups.forEach((name, tally) -> row(name, tally, out));
    out.append("\nended by (all)\n");
    all()
        .rules()
        .forEach(
            (rule, count) ->
                out.append(
                    String.format(
                        Locale.ROOT, "  %-28s%7s%n", rule, share(count, all().people()))));
    if (!all().results().isEmpty()) {
      out.append("\n");
    }
    resultLines().forEach(line -> out.append(line).append("\n"));
    if (!all().recoveries().isEmpty()) {
      out.append("\nrecovery ended by (all)\n");
      all()
          .recoveries()
          .forEach(
              (word, count) ->
                  out.append(
                      String.format(
                          Locale.ROOT, "  %-28s%7s%n", word, share(count, all().people()))));
    }
    out.append(
        String.format(
            Locale.ROOT,
            "%nmarginal decisions %s; bias and spread in mL/kg/min against the true capacity;%n"
                + "coverage: of the true capacity by the 95 %% interval. Virtual people are no people.%n",
            share(all().marginal(), all().decisions())));
    return out.toString();
  }

  /** How each further result is spread over everybody, one line for each. */
  public List<String> resultLines() {
    List<String> lines = new ArrayList<>();
    all().results().forEach((id, figures) -> lines.add(result(id, figures)));
    return lines;
  }

  private String result(String id, Figures figures) {
    return String.format(
        Locale.ROOT,
        "result %s: in %s, %s on average, spread %s, %s to %s",
        id,
        share(figures.count(), all().people()),
        shown(figures.mean().base(), figures),
        Double.isNaN(figures.spread()) ? "-" : shown(figures.spread(), figures),
        shown(figures.lowest(), figures),
        shown(figures.highest(), figures));
  }

  private static String shown(double base, Figures figures) {
    return Quantity.ofBase(base, figures.unit()).rounded(1).toString();
  }

  private static void row(String name, Tally tally, StringBuilder out) {
    out.append(
        String.format(
            Locale.ROOT,
            "%-12s%8d%9s%8s%10s%9s%9s%10s%11s%6s%8s%10s%n",
            name,
            tally.people(),
            share(tally.ended(End.FINISHED), tally.people()),
            share(tally.ended(End.STOPPED), tally.people()),
            share(tally.ended(End.UNDECIDED), tally.people()),
            share(tally.ended(End.DEFERRED), tally.people()),
            number(tally.minutes()),
            share(tally.held(), tally.people()),
            share(tally.estimates(), tally.people()),
            number(tally.bias()),
            number(tally.spread()),
            share(tally.covered(), tally.judged())));
  }

  private static String number(double value) {
    return Double.isNaN(value) ? "-" : String.format(Locale.ROOT, "%.1f", value);
  }

  private static String share(long part, long whole) {
    return whole == 0 ? "-" : String.format(Locale.ROOT, "%.1f%%", 100.0 * part / whole);
  }
}
