package org.gradus.examples.workbench;

import java.io.FilterWriter;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.Writer;
import org.gradus.diagnostic.Printable;

/**
 * The door of everything the workbench writes for people and programs: characters that a terminal
 * would obey, or that turn or hide text, do not pass it.
 */
final class PlainWriter extends FilterWriter {

  private PlainWriter(Writer out) {
    super(out);
  }

  /** A printer in front of another one. */
  static PrintWriter before(PrintWriter out) {
    return new PrintWriter(new PlainWriter(out), true);
  }

  @Override
  public void write(int c) throws IOException {
    write(Character.toString(c));
  }

  @Override
  public void write(char[] text, int from, int length) throws IOException {
    write(new String(text, from, length));
  }

  @Override
  public void write(String text, int from, int length) throws IOException {
    write(text.substring(from, from + length));
  }

  @Override
  public void write(String text) throws IOException {
    // A line may end as this system ends lines.
    out.write(text.equals(System.lineSeparator()) ? text : Printable.text(text));
  }
}
