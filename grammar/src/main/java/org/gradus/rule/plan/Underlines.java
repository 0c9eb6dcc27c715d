package org.gradus.rule.plan;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Function;

/**
 * Puts words under parts of a line. A part stands below the parts it is made of; parts that are not
 * parts of each other share a row as long as their words leave each other room.
 */
final class Underlines {

  /**
   * Words for a part of the line.
   *
   * @param start the first column
   * @param end the column after the last
   * @param height how many parts deep it is made of others; a part comes after its own parts
   * @param words what to say, line by line
   */
  record Mark(int start, int end, int height, List<String> words) {

    private int width() {
      int widest = words.stream().mapToInt(String::length).max().orElse(0);
      return Math.max(end - start, widest);
    }

    // With a blank between what stands side by side.
    private boolean collides(Mark other) {
      return start <= other.start + other.width() && other.start <= start + width();
    }
  }

  private Underlines() {}

  static List<String> under(String text, List<Mark> marks) {
    List<String> lines = new ArrayList<>(List.of(text));
    for (List<Mark> row : rows(marks)) {
      lines.add(line(row, mark -> "-".repeat(mark.end() - mark.start())));
      int words = row.stream().mapToInt(mark -> mark.words().size()).max().orElse(0);
      for (int i = 0; i < words; i++) {
        int at = i;
        lines.add(line(row, mark -> at < mark.words().size() ? mark.words().get(at) : ""));
      }
    }
    return lines;
  }

  private static List<List<Mark>> rows(List<Mark> marks) {
    List<Mark> ordered = new ArrayList<>(marks);
    ordered.sort(Comparator.comparingInt(Mark::height).thenComparingInt(Mark::start));
    List<List<Mark>> rows = new ArrayList<>();
    int first = 0;
    int height = 0;
    for (Mark mark : ordered) {
      if (mark.height() > height) {
        height = mark.height();
        first = rows.size();
      }
      rowWithRoom(rows, first, mark).add(mark);
    }
    return rows;
  }

  private static List<Mark> rowWithRoom(List<List<Mark>> rows, int first, Mark mark) {
    for (List<Mark> row : rows.subList(first, rows.size())) {
      if (row.stream().noneMatch(mark::collides)) {
        return row;
      }
    }
    List<Mark> row = new ArrayList<>();
    rows.add(row);
    return row;
  }

  private static String line(List<Mark> row, Function<Mark, String> words) {
    StringBuilder line = new StringBuilder();
    for (Mark mark : row) {
      String said = words.apply(mark);
      if (!said.isEmpty()) {
        line.append(" ".repeat(mark.start() - line.length())).append(said);
      }
    }
    return line.toString();
  }
}
