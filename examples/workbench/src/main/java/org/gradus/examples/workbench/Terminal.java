package org.gradus.examples.workbench;

/** Whether a person looks on. */
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
