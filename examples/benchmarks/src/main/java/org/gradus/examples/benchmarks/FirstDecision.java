package org.gradus.examples.benchmarks;

import static org.gradus.session.Times.at;

import java.io.IOException;
import org.gradus.bundled.Bundled;
import org.gradus.library.Library;

/** What a program does that starts, loads the bundled files and asks for one decision. */
final class FirstDecision {

  /** Checks one protocol instead of all. */
  static final String ONE = "one";

  private static final String WALK = "graded-walk-standard";

  private FirstDecision() {}

  /**
   * Prints the decision; with an argument other than {@link #ONE} only the argument, to see what
   * any program needs. Then it waits for the end of its input.
   */
  public static void main(String[] arguments) throws IOException {
    System.out.println(
        arguments.length == 0 || arguments[0].equals(ONE) ? decision(arguments) : arguments[0]);
    while (System.in.read() >= 0) {
      // What is typed does not matter.
    }
  }

  private static String decision(String[] arguments) {
    Library library = arguments.length == 0 ? Bundled.library() : Bundled.library(WALK);
    return StandardWalk.ready(library.protocol(WALK)).decide(at("0:00")).toString();
  }
}
