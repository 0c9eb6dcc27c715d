package org.gradus.examples.workbench;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Lines of files with what is underlined in them, folded so that each underline stays below what it
 * is about. Nothing is cut away.
 */
final class Folded {

  // "  41 |   - finish when", or "     |       ^^^^ pressure" below it.
  private static final Pattern EXCERPT = Pattern.compile("( {2,}(\\d*) \\|) ?(.*)");
  private static final int NARROWEST = 10;

  private final List<String> rows;
  private final List<String> margins;
  private final int width;

  private Folded(List<String> rows, List<String> margins, int columns) {
    this.rows = rows;
    this.margins = margins;
    this.width = Math.max(NARROWEST, columns - margins.get(0).length() - 1);
  }

  /** Lines with the excerpts among them folded, and all else as it was. */
  static List<String> excerpts(List<String> lines, int columns) {
    List<String> out = new ArrayList<>();
    int next = 0;
    while (next < lines.size()) {
      List<String> rows = new ArrayList<>();
      List<String> margins = new ArrayList<>();
      for (int i = next; i < lines.size(); i++) {
        Matcher excerpt = EXCERPT.matcher(lines.get(i));
        if (!excerpt.matches() || (i > next && !excerpt.group(2).isEmpty())) {
          break;
        }
        margins.add(excerpt.group(1));
        rows.add(excerpt.group(3));
      }
      out.addAll(
          rows.isEmpty() ? List.of(lines.get(next)) : new Folded(rows, margins, columns).lines());
      next += Math.max(1, rows.size());
    }
    return out;
  }

  private List<String> lines() {
    int longest = rows.stream().mapToInt(String::length).max().orElse(0);
    List<String> lines = new ArrayList<>();
    int from = 0;
    do {
      int to = longest - from <= width ? longest : fold(from);
      for (int i = 0; i < rows.size(); i++) {
        String part = part(rows.get(i), from, to);
        if (i == 0 || !part.isBlank()) {
          String margin = from == 0 ? margins.get(i) : margins.get(i).replaceAll("\\d", " ");
          lines.add((margin + " " + part).stripTrailing());
        }
      }
      from = to;
    } while (from < longest);
    return lines;
  }

  // Where no row has a word in two parts, if there is such a place; an underline may be parted.
  private int fold(int from) {
    for (int to = from + width; to > from + width / 2; to--) {
      int at = to;
      if (rows.stream().allMatch(row -> mayFold(row, at))) {
        return to;
      }
    }
    return from + width;
  }

  private static boolean mayFold(String row, int at) {
    if (at >= row.length()) {
      return true;
    }
    String around = row.substring(at - 1, at + 1);
    return around.indexOf(' ') >= 0 || around.equals("^^") || around.equals("--");
  }

  private static String part(String row, int from, int to) {
    return from >= row.length() ? "" : row.substring(from, Math.min(to, row.length()));
  }
}
