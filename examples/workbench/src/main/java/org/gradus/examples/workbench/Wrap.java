package org.gradus.examples.workbench;

import java.util.ArrayList;
import java.util.List;

/** Wraps long lines at blanks; continuation lines are indented by two columns. */
final class Wrap {

  private static final int NARROWEST = 20;

  private Wrap() {}

  /**
   * The lines a text is shown as, lines of files with what is underlined in them among them.
   *
   * @param columns how wide the terminal is; 0 leaves lines whole
   */
  static List<String> text(String text, int columns) {
    List<String> whole = text.lines().toList();
    return columns <= 0
        ? whole
        : Folded.excerpts(whole, columns).stream()
            .flatMap(line -> lines(line, columns).stream())
            .toList();
  }

  /**
   * The lines a line is shown as.
   *
   * @param columns how wide the terminal is; 0 leaves the line whole
   */
  static List<String> lines(String line, int columns) {
    if (columns <= 0 || line.length() <= columns) {
      return List.of(line);
    }
    int width = Math.max(NARROWEST, columns);
    String indent = " ".repeat(Math.min(width / 3, line.length() - line.stripLeading().length()));
    List<String> lines = new ArrayList<>();
    String rest = line;
    while (rest.length() > width) {
      int blank = rest.lastIndexOf(' ', width);
      boolean word = blank > indent.length() + 2;
      int end = word ? blank : width;
      lines.add(rest.substring(0, end).stripTrailing());
      rest = indent + "  " + rest.substring(end).strip();
    }
    lines.add(rest);
    return lines;
  }
}
