package org.gradus.review;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.gradus.session.Times;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;

/** Edge cases as a table for people: the comparison, then a row for each side of its edge. */
final class EdgeTable {

  private static final int USUAL = 28;

  private EdgeTable() {}

  static String of(List<EdgeCase> cases) {
    StringBuilder out = new StringBuilder();
    for (List<EdgeCase> edge : edges(cases)) {
      EdgeCase first = edge.get(0);
      out.append(head(first)).append("   (").append(first.where()).append(", ");
      out.append(first.moment()).append(")\n");
      // What is held fixed is mostly the same on all sides, and is then said once.
      boolean alike = edge.stream().allMatch(one -> one.others().equals(first.others()));
      if (alike && !first.others().isEmpty()) {
        out.append("  with ").append(first.others()).append('\n');
      }
      int width =
          Math.max(USUAL, edge.stream().mapToInt(one -> varied(one).length()).max().orElse(0));
      edge.forEach(one -> out.append(row(one, width, !alike)));
    }
    return out.toString();
  }

  private static List<List<EdgeCase>> edges(List<EdgeCase> cases) {
    List<List<EdgeCase>> edges = new ArrayList<>();
    String last = "";
    for (EdgeCase one : cases) {
      String head = head(one) + " by " + one.subject();
      if (!head.equals(last)) {
        edges.add(new ArrayList<>());
        last = head;
      }
      edges.get(edges.size() - 1).add(one);
    }
    return edges;
  }

  private static String head(EdgeCase one) {
    return one.group() + " / " + one.rule() + ": " + one.comparison();
  }

  private static String row(EdgeCase one, int width, boolean others) {
    String holds =
        switch (one.holds()) {
          case TRUE -> "holds";
          case FALSE -> "fails";
          case UNKNOWN -> "unknown";
        };
    return String.format(
        Locale.ROOT,
        "  %-6s %-" + width + "s rule %-8s %s%s%n",
        one.side().name().toLowerCase(Locale.ROOT),
        varied(one),
        holds,
        one.decides(),
        others && !one.others().isEmpty() ? "   with " + one.others() : "");
  }

  private static String varied(EdgeCase one) {
    return one.subject() + " " + value(one.value());
  }

  /** A time as on a stopwatch, anything else with its unit. */
  static String value(Quantity value) {
    return value.kind() == Kind.TIME && value.base() == Math.rint(value.base())
        ? Times.clock(Duration.ofSeconds((long) value.base()))
        : value.toString();
  }
}
