package org.gradus.diagnostic;

import static java.util.Objects.requireNonNull;

import java.util.Arrays;

/**
 * The name and the text of a file, with its lines. Two source files are equal only when they are
 * the same object, so that places of two files with one name never mix.
 */
public final class SourceFile {

  private final String name;
  private final String text;
  private final int[] lineStarts;

  private SourceFile(String name, String text) {
    this.name = name;
    this.text = text;
    this.lineStarts = lineStarts(text);
  }

  /** A file of this name, as shown in messages, and text. */
  public static SourceFile of(String name, String text) {
    requireNonNull(name, "name");
    return new SourceFile(name, text);
  }

  /** The name shown in messages. */
  public String name() {
    return name;
  }

  /** The whole text. */
  public String text() {
    return text;
  }

  /** The line of an offset, counted from 1. */
  public int lineAt(int offset) {
    int found = Arrays.binarySearch(lineStarts, offset);
    return found >= 0 ? found + 1 : -found - 1;
  }

  /** The column of an offset, counted from 1 in characters as a person counts them. */
  public int columnAt(int offset) {
    return text.codePointCount(startOfLine(lineAt(offset)), offset) + 1;
  }

  /** The offset at which a line begins. */
  int startOfLine(int line) {
    return lineStarts[line - 1];
  }

  /** The text of a line without its line break. */
  String line(int line) {
    int end = line < lineStarts.length ? lineStarts[line] : text.length();
    while (end > startOfLine(line) && isBreak(text.charAt(end - 1))) {
      end--;
    }
    return text.substring(startOfLine(line), end);
  }

  /** The name; the text may be long. */
  @Override
  public String toString() {
    return name;
  }

  private static boolean isBreak(char c) {
    return c == '\n' || c == '\r';
  }

  private static int[] lineStarts(String text) {
    int[] starts = new int[text.length() + 1];
    int count = 1;
    for (int i = 0; i < text.length(); i++) {
      boolean carriageReturnAlone =
          text.charAt(i) == '\r' && (i + 1 == text.length() || text.charAt(i + 1) != '\n');
      if (text.charAt(i) == '\n' || carriageReturnAlone) {
        starts[count++] = i + 1;
      }
    }
    return Arrays.copyOf(starts, count);
  }
}
