package org.gradus.trial;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import org.gradus.trial.Run.End;

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
    out.append(
        String.format(
            Locale.ROOT,
            "%nmarginal decisions %s; bias and spread in mL/kg/min against the true capacity;%n"
                + "coverage: of the true capacity by the 95 %% interval. Virtual people are no people.%n",
            share(all().marginal(), all().decisions())));
    return out.toString();
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
