package org.gradus.examples.workbench;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** How fast the clock of a live test runs; part of the commands that have one. */
class Pace {

  private static final double FASTEST = 600;

  private double speed = 1;

  @Spec(Spec.Target.MIXEE)
  private @Nullable CommandSpec spec;

  @Option(
      names = "--speed",
      paramLabel = "N",
      description =
          "How many times faster than real time the clock runs (default: 1); 0: it stands still"
              + " until a time is typed.")
  void speed(double times) {
    boolean possible = times >= 0 && times <= FASTEST;
    if (!possible && spec != null) {
      throw new ParameterException(
          spec.commandLine(), "--speed " + times + ": give a number from 0 to 600");
    }
    speed = times;
  }

  double speed() {
    return speed;
  }
}
