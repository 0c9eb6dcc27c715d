package org.gradus.diagnostic;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.gradus.diagnostic.Diagnostic.Label;

/** Turns something that is said of places in files into text with their lines, underlined. */
public final class Renderer {

  private static final int LONGEST = 240;
  private static final String CUT = "...";

  private final List<Label> places;
  private final StringBuilder out = new StringBuilder();
  private final int margin;

  private Renderer(List<Label> places) {
    this.places = places;
    this.margin =
        places.stream()
            .mapToInt(label -> Integer.toString(label.where().line()).length())
            .max()
            .orElse(1);
  }

  static String render(Diagnostic diagnostic) {
    List<String> help =
        diagnostic.help().isEmpty() ? List.of() : List.of("help: " + diagnostic.help());
    return render(
        "error[" + diagnostic.code() + "]", diagnostic.labels(), diagnostic.message(), help);
  }

  /**
   * What is said, with its lines, as it is shown to a person.
   *
   * @param head what comes first: {@code error[G204]}
   * @param places the places it speaks of, the one that is to be changed first; never empty
   * @param message what is said
   * @param notes what comes after the lines, a line each
   */
  public static String render(String head, List<Label> places, String message, List<String> notes) {
    requireNonNull(head, "head");
    requireNonNull(message, "message");
    requireNonNull(notes, "notes");
    return new Renderer(places).text(head, message, notes);
  }

  private String text(String head, String message, List<String> notes) {
    Span first = places.get(0).where();
    out.append(head).append(' ');
    out.append(Columns.visible(first + ": " + message));
    Map<SourceFile, TreeMap<Integer, List<Label>>> byFile = new LinkedHashMap<>();
    for (Label label : places) {
      byFile
          .computeIfAbsent(label.where().file(), file -> new TreeMap<>())
          .computeIfAbsent(label.where().line(), line -> new ArrayList<>())
          .add(label);
    }
    byFile.forEach(
        (file, lines) -> {
          if (file != first.file()) {
            out.append("\n  in ").append(Columns.visible(file.name())).append(':');
          }
          lines.forEach((line, labels) -> excerpt(file, line, labels));
        });
    notes.forEach(note -> out.append("\n  ").append(Columns.visible(note)));
    return out.toString();
  }

  // Of a line that is too long to be read only the surroundings of its first label are shown.
  private void excerpt(SourceFile file, int line, List<Label> labels) {
    String whole = file.line(line);
    int begin = file.startOfLine(line);
    int from = 0;
    if (whole.length() > LONGEST) {
      int first = labels.stream().mapToInt(label -> label.where().start()).min().orElse(0) - begin;
      from = Math.max(0, Math.min(first - LONGEST / 4, whole.length() - LONGEST));
    }
    int to = Math.min(whole.length(), from + LONGEST);
    String text =
        (from > 0 ? CUT : "") + whole.substring(from, to) + (to < whole.length() ? CUT : "");
    int origin = begin + from - (from > 0 ? CUT.length() : 0);
    newLine(Integer.toString(line));
    if (!text.isEmpty()) {
      out.append(' ').append(Columns.visible(text));
    }
    List<Mark> marks = new ArrayList<>();
    for (Label label : labels) {
      int start = Columns.width(text, label.where().start() - origin);
      int end = Columns.width(text, label.where().end() - origin);
      char sign = label.equals(places.get(0)) ? '^' : '-';
      marks.add(new Mark(start, Math.max(start + 1, end), sign, label.note()));
    }
    underline(marks);
    hang(marks);
  }

  private record Mark(int start, int end, char sign, String note) {}

  private void underline(List<Mark> marks) {
    char[] row = new char[marks.stream().mapToInt(Mark::end).max().orElse(0)];
    Arrays.fill(row, ' ');
    for (char sign : new char[] {'-', '^'}) { // the place to be changed lies on top
      for (Mark mark : marks) {
        if (mark.sign() == sign) {
          Arrays.fill(row, mark.start(), mark.end(), sign);
        }
      }
    }
    newLine("");
    out.append(' ').append(row);
  }

  // The note of the underline that ends the row stands behind it; the others hang below theirs.
  private void hang(List<Mark> marks) {
    Mark last = marks.stream().max(Comparator.comparingInt(Mark::end)).orElseThrow();
    if (!last.note().isEmpty()) {
      out.append(' ').append(last.note());
    }
    marks.remove(last);
    marks.stream()
        .filter(mark -> !mark.note().isEmpty())
        .sorted(Comparator.comparingInt(Mark::start).reversed())
        .forEach(
            mark -> {
              newLine("");
              out.append(" ".repeat(mark.start() + 1)).append(mark.note());
            });
  }

  private void newLine(String number) {
    out.append("\n  ").append(" ".repeat(margin - number.length())).append(number).append(" |");
  }
}
