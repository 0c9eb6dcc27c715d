package org.gradus.examples.workbench;

import java.io.ByteArrayInputStream;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.gradus.bundled.Bundled;

/** Runs the workbench as its users do. */
final class Bench {

  static final String OWN = "../own-protocol";

  /** What READY needs in the bundled tests of adults, and the READY confirmed. */
  static final String BEGUN = "resting hr 65, 120/80\nnothing unusual\n\n";

  private Bench() {}

  /** How many protocols there are with so many of one's own. */
  static int withBundled(int own) {
    return Bundled.library().protocols().size() + own;
  }

  /** What a run came to: exit code, and what was written. */
  record Ran(int code, String text) {}

  /** Runs a command, with what is typed into it. */
  static Ran run(String typed, String... arguments) {
    return run(typed, 0, arguments);
  }

  /** Runs a command where lines may be so wide. */
  static Ran at(int columns, String... arguments) {
    return run("", columns, arguments);
  }

  private static Ran run(String typed, int columns, String... arguments) {
    StringWriter text = new StringWriter();
    PrintWriter out = new PrintWriter(text, true);
    InputStream in = new ByteArrayInputStream(typed.getBytes(StandardCharsets.UTF_8));
    return new Ran(Workbench.run(in, out, out, columns, arguments), text.toString());
  }

  /** A test of a woman of 40 years and 64 kg by the protocol of one's own. */
  static Ran live(String typed, Path record) {
    String[] command = {
      "run",
      "canal-walk",
      "--folder",
      OWN,
      "--age",
      "40",
      "--sex",
      "female",
      "--mass",
      "64",
      "--cleared",
      "--speed",
      "0",
      "--record",
      record.toString()
    };
    return run(typed, command);
  }

  /** A test of a man of 40 years and 70 kg by a bundled protocol; the clock shows what is typed. */
  static Ran bundled(String protocol, String typed, String... options) {
    List<String> command =
        new ArrayList<>(
            List.of("run", protocol, "--age", "40", "--sex", "male", "--mass", "70", "--cleared"));
    command.addAll(List.of("--speed", "0"));
    command.addAll(List.of(options));
    return run(typed, command.toArray(String[]::new));
  }
}
