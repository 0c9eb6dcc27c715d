package org.gradus.examples.benchmarks;

import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.ProcessBuilder.Redirect;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** Java processes with the class path of this one. */
final class Processes {

  private Processes() {}

  /** The command that starts a class. */
  static List<String> java(Class<?> main, String... options) {
    return java(System.getProperty("java.class.path"), main, options);
  }

  /** The same with another class path. */
  static List<String> java(String path, Class<?> main, String... options) {
    List<String> command = new ArrayList<>();
    command.add(System.getProperty("java.home") + File.separator + "bin" + File.separator + "java");
    command.addAll(List.of(options));
    command.addAll(List.of("-cp", path, main.getName()));
    return command;
  }

  /** Runs a class to its end and returns what it printed; its errors are shown. */
  static String output(Class<?> main, String... options) {
    try {
      Process process =
          new ProcessBuilder(java(main, options)).redirectError(Redirect.INHERIT).start();
      byte[] printed = process.getInputStream().readAllBytes();
      int left = process.waitFor();
      if (left != 0) {
        throw new IllegalStateException(main.getSimpleName() + " failed with " + left);
      }
      return new String(printed, StandardCharsets.UTF_8).strip();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }
}
