package org.gradus.rule.plan;

import org.gradus.diagnostic.Span;

/** A text in one line, with every stretch of white space made one blank. */
final class OneLine {

  private final int start;
  private final int[] columns;
  private final String text;

  OneLine(Span span) {
    String written = span.text();
    this.start = span.start();
    this.columns = new int[written.length() + 1];
    StringBuilder line = new StringBuilder();
    for (int i = 0; i < written.length(); i++) {
      char character = written.charAt(i);
      boolean blank = Character.isWhitespace(character);
      if (blank && line.length() > 0 && line.charAt(line.length() - 1) == ' ') {
        columns[i] = line.length() - 1;
      } else {
        columns[i] = line.length();
        line.append(blank ? ' ' : character);
      }
    }
    columns[written.length()] = line.length();
    this.text = line.toString();
  }

  String text() {
    return text;
  }

  /** The column at which a place of the file stands. */
  int at(int place) {
    return columns[place - start];
  }
}
