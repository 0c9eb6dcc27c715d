package org.gradus.diagnostic;

import static java.util.Objects.requireNonNull;

/**
 * A stretch of a file.
 *
 * @param file where it is
 * @param start offset of its first character
 * @param end offset after its last character; not before {@code start}
 */
public record Span(SourceFile file, int start, int end) {
  public Span {
    requireNonNull(file, "file");
  }

  /** The whole of a text that stands in no file, such as a rule given as a string. */
  public static Span all(String name, String text) {
    requireNonNull(name, "name");
    return new Span(SourceFile.of(name, text), 0, text.length());
  }

  /** The characters of this stretch. */
  public String text() {
    return file.text().substring(start, end);
  }

  /** The characters of this stretch in one line, every stretch of white space as one blank. */
  public String inOneLine() {
    String text = text();
    return isInOneLine(text) ? text : text.replaceAll("\\s+", " ");
  }

  private static boolean isInOneLine(String text) {
    boolean blank = false;
    for (int i = 0; i < text.length(); i++) {
      boolean white = Character.isWhitespace(text.charAt(i));
      if (white && (blank || text.charAt(i) != ' ')) {
        return false;
      }
      blank = white;
    }
    return true;
  }

  /** The stretch from the start of this to the end of another in the same file. */
  public Span to(Span last) {
    return new Span(file, start, last.end);
  }

  /** The line on which it starts, from 1. */
  public int line() {
    return file.lineAt(start);
  }

  /** The column at which it starts, from 1. */
  public int column() {
    return file.columnAt(start);
  }

  /** File, line and column: {@code walk.yaml:41:22}. */
  @Override
  public String toString() {
    return file.name() + ":" + line() + ":" + column();
  }
}
