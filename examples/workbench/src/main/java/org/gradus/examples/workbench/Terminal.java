package org.gradus.examples.workbench;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;

/** The terminal: whether a person looks on, how wide it is, what is typed. */
final class Terminal {

  private static final int USUAL_COLUMNS = 80;

  private Terminal() {}

  /** Whether lines may be written over: there is a terminal, and it says what it is. */
  @SuppressWarnings("SystemConsoleNull") // from Java 22 on there may be a console without terminal
  static boolean isWatched() {
    String kind = System.getenv("TERM");
    return System.console() != null && kind != null && !kind.equals("dumb");
  }

  /**
   * What is typed; nothing where the input is closed. Java then opens its own files in the place of
   * the input, and what they hold must not be taken for typed lines.
   */
  static InputStream input() {
    return input(Path.of("/proc/self/fd/0"), Path.of(System.getProperty("java.home")));
  }

  static InputStream input(Path opened, Path java) {
    try {
      if (Files.exists(opened) && opened.toRealPath().startsWith(java.toRealPath())) {
        return InputStream.nullInputStream();
      }
    } catch (IOException e) {
      // A system that does not say what is opened: the starter looks after it.
    }
    return System.in;
  }

  /**
   * How wide it is: as COLUMNS says, which the starter hands on, else 80 columns; 0 where nobody
   * looks on and nothing is said.
   */
  static int width() {
    String columns = System.getenv("COLUMNS");
    boolean said = columns != null && columns.matches("[1-9][0-9]{0,3}");
    int unsaid = isWatched() ? USUAL_COLUMNS : 0;
    return said ? Integer.parseInt(columns) : unsaid;
  }
}
