package org.gradus.examples.benchmarks;

import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** Java processes with the class path of this one. */
final class Processes {

  private Processes() {}

  /** The command that starts a class. */
  static List<String> java(Class<?> main, String... options) {
    List<String> command = new ArrayList<>();
    command.add(System.getProperty("java.home") + File.separator + "bin" + File.separator + "java");
    command.addAll(List.of(options));
    command.addAll(List.of("-cp", System.getProperty("java.class.path"), main.getName()));
    return command;
  }

  /** Runs a class to its end and returns what it printed. */
  static String output(Class<?> main, String... options) {
    try {
      Process process = new ProcessBuilder(java(main, options)).start();
      byte[] printed = process.getInputStream().readAllBytes();
      return new String(printed, StandardCharsets.UTF_8).strip();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
