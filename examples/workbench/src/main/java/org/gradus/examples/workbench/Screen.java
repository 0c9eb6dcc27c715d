package org.gradus.examples.workbench;

import java.io.PrintWriter;
import java.util.List;
import org.gradus.session.Decision;
import org.gradus.session.Event;

/**
 * Where a live test is shown. Where somebody looks on, a line with the countdown stands above the
 * line that is typed into and is written anew each second; else there are only lines.
 */
final class Screen {

  private static final String SAVE = "\0337";
  private static final String RESTORE = "\0338";
  private static final String LINE_ABOVE = "\033[1A";
  private static final String CLEAR_LINE = "\r\033[K";
  private static final String BELL = "\007";
  private static final String PROMPT = "> ";

  private final PrintWriter out;
  private final PrintWriter terminal;
  private final boolean watched;
  private final int columns;
  private boolean painted;

  /**
   * A screen.
   *
   * @param out for text, from which it takes out what a terminal would obey
   * @param terminal the same terminal, for what it is to obey
   * @param columns how wide it is; 0 for any width, where nobody looks on
   */
  Screen(PrintWriter out, PrintWriter terminal, boolean watched, int columns) {
    this.out = out;
    this.terminal = terminal;
    this.watched = watched;
    this.columns = columns;
  }

  /** Whether somebody looks on at a terminal. */
  boolean isWatched() {
    return watched;
  }

  /** Writes a line that stays. */
  void print(String line) {
    if (painted) {
      terminal.print(CLEAR_LINE + LINE_ABOVE + CLEAR_LINE);
      painted = false;
    }
    // A text from a file must not draw lines of its own.
    Wrap.lines(line.replaceAll("\\R", " "), columns).forEach(out::println);
  }

  /** Shows the countdown; what is being typed below it is not touched. */
  void paint(Decision decision, List<Event> events) {
    if (!watched) {
      return;
    }
    // A line that filled the last column would begin another one.
    String countdown = Countdown.line(decision, events, columns - 1);
    if (painted) {
      terminal.print(SAVE + LINE_ABOVE + CLEAR_LINE);
      out.print(countdown);
      terminal.print(RESTORE);
    } else {
      out.println(countdown);
      out.print(PROMPT);
    }
    out.flush();
    painted = true;
  }

  /** A line has been typed: the cursor stands on the one below it, and what is above stays. */
  void entered() {
    painted = false;
  }

  /** Calls somebody who looks at the person and not at the screen. */
  void ring() {
    if (watched) {
      terminal.print(BELL);
      terminal.flush();
    }
  }
}
