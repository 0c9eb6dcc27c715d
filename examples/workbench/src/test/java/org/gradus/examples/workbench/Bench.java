package org.gradus.examples.workbench;

import java.io.OutputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** Runs the workbench as its users do. */
final class Bench {

  static final String OWN = "../own-protocol";

  private Bench() {}

  /** What a run came to: exit code, and what was written. */
  record Ran(int code, String text) {}

  /** Runs a command, with what is typed into it. */
  static Ran run(String typed, String... arguments) throws Exception {
    // Where nothing is typed no process of its own is needed.
    if (!typed.isEmpty()) {
      return started(typed, arguments);
    }
    return at(0, arguments);
  }

  /** Runs a command where lines may be so wide. */
  static Ran at(int columns, String... arguments) {
    StringWriter text = new StringWriter();
    PrintWriter out = new PrintWriter(text, true);
    return new Ran(Workbench.run(out, out, columns, arguments), text.toString());
  }

  private static Ran started(String typed, String... arguments) throws Exception {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(List.of("-cp", System.getProperty("java.class.path")));
    command.add(Workbench.class.getName());
    command.addAll(List.of(arguments));
    ProcessBuilder builder = new ProcessBuilder(command).redirectErrorStream(true);
    builder.environment().remove("COLUMNS");
    Process process = builder.start();
    try (OutputStream in = process.getOutputStream()) {
      in.write(typed.getBytes(StandardCharsets.UTF_8));
    }
    String text = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    return new Ran(process.waitFor(), text);
  }

  /** A test of a woman of 40 years and 64 kg by the protocol of one's own. */
  static Ran live(String typed, Path record) throws Exception {
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
      "--record",
      record.toString()
    };
    return run(typed, command);
  }
}
