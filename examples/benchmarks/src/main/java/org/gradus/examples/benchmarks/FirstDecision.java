package org.gradus.examples.benchmarks;

import static org.gradus.session.Times.at;

import org.gradus.bundled.Bundled;

/** What a program does that starts, loads the bundled files and asks for one decision. */
final class FirstDecision {

  private FirstDecision() {}

  /** Prints the decision; with an argument only the argument, to see what any program needs. */
  public static void main(String[] arguments) {
    System.out.println(
        arguments.length > 0
            ? arguments[0]
            : StandardWalk.ready(Bundled.library().protocol("graded-walk-standard"))
                .decide(at("0:00")));
  }
}
