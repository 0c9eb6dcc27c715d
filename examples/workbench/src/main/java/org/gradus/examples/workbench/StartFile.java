package org.gradus.examples.workbench;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * Writes down how Java starts the workbench: a file of arguments, {@code java @FILE}, which the
 * starters of every system hand on as it is. The libraries are those it was itself started with.
 */
final class StartFile {

  private StartFile() {}

  /**
   * Writes it.
   *
   * @param arguments the file to write
   * @throws IOException when it cannot be written
   */
  public static void main(String[] arguments) throws IOException {
    // Java reads such a file in the encoding of the system.
    Charset charset = Charset.forName(System.getProperty("native.encoding"));
    Files.writeString(Path.of(arguments[0]), text(System.getProperty("java.class.path")), charset);
  }

  static String text(String classPath) {
    // jdk.console: from Java 22 on there would be a console also where there is no terminal.
    // The collector for throughput: trials make much garbage that nothing outlives.
    return "-XX:+UseParallelGC\n-Djdk.console=java.base\n-classpath\n"
        + quoted(classPath)
        + "\n"
        + Workbench.class.getName()
        + "\n";
  }

  // In quotes a blank is nothing special, but a backslash is.
  private static String quoted(String text) {
    return '"' + text.replace("\\", "\\\\").replace("\"", "\\\"") + '"';
  }
}
