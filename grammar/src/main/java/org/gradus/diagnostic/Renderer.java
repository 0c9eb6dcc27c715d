package org.gradus.diagnostic;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.TreeMap;
import org.gradus.diagnostic.Diagnostic.Label;

/** Turns a diagnostic into text with the lines it speaks of, underlined. */
final class Renderer {

  private final Diagnostic diagnostic;
  private final StringBuilder out = new StringBuilder();
  private final int margin;

  private Renderer(Diagnostic diagnostic) {
    this.diagnostic = diagnostic;
    this.margin =
        diagnostic.labels().stream()
            .mapToInt(label -> Integer.toString(label.where().line()).length())
            .max()
            .orElse(1);
  }

  static String render(Diagnostic diagnostic) {
    return new Renderer(diagnostic).render();
  }

  private String render() {
    out.append("error[").append(diagnostic.code()).append("] ");
    out.append(diagnostic.where()).append(": ").append(diagnostic.message());
    TreeMap<Integer, List<Label>> byLine = new TreeMap<>();
    for (Label label : diagnostic.labels()) {
      byLine.computeIfAbsent(label.where().line(), line -> new ArrayList<>()).add(label);
    }
    byLine.forEach(this::excerpt);
    if (!diagnostic.help().isEmpty()) {
      out.append("\n  help: ").append(diagnostic.help());
    }
    return out.toString();
  }

  private void excerpt(int line, List<Label> labels) {
    SourceFile file = diagnostic.where().file();
    String text = file.line(line);
    newLine(Integer.toString(line));
    out.append(Columns.visible(text));
    List<Label> leftToRight = new ArrayList<>(labels);
    leftToRight.sort(Comparator.comparingInt(label -> label.where().start()));
    underline(file, line, text, leftToRight);
    hang(file, line, text, leftToRight);
  }

  // The rightmost note follows its underline; the others hang below theirs.
  private void underline(SourceFile file, int line, String text, List<Label> labels) {
    newLine("");
    int column = 0;
    for (Label label : labels) {
      int from = label.where().start() - file.startOfLine(line);
      int to =
          Math.max(from, Math.min(text.length(), label.where().end() - file.startOfLine(line)));
      int start = Columns.width(text, from);
      if (start < column) {
        continue; // a place inside another: its note still hangs below
      }
      out.append(" ".repeat(start - column));
      int width = Math.max(1, Columns.width(text, to) - start);
      out.append((label.equals(diagnostic.labels().get(0)) ? "^" : "-").repeat(width));
      column = start + width;
    }
    String last = labels.get(labels.size() - 1).note();
    if (!last.isEmpty()) {
      out.append(' ').append(last);
    }
  }

  private void hang(SourceFile file, int line, String text, List<Label> labels) {
    for (int i = labels.size() - 2; i >= 0; i--) {
      Label label = labels.get(i);
      if (!label.note().isEmpty()) {
        newLine("");
        out.append(" ".repeat(Columns.width(text, label.where().start() - file.startOfLine(line))));
        out.append(label.note());
      }
    }
  }

  private void newLine(String number) {
    out.append("\n  ").append(" ".repeat(margin - number.length())).append(number).append(" | ");
  }
}
