package org.gradus.examples.workbench;

/** Whether a person looks on. */
final class Terminal {

  private Terminal() {}

  /** Whether lines may be written over: there is a terminal, and it says what it is. */
  @SuppressWarnings("SystemConsoleNull") // from Java 22 on there may be a console without terminal
  static boolean isWatched() {
    String kind = System.getenv("TERM");
    return System.console() != null && kind != null && !kind.equals("dumb");
  }
}
