package org.gradus.examples.workbench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** Writes down the class path it was started with, for the script that starts the workbench. */
final class ClassPath {

  private ClassPath() {}

  /**
   * Writes it.
   *
   * @param arguments the file to write
   * @throws IOException when it cannot be written
   */
  public static void main(String[] arguments) throws IOException {
    Files.writeString(Path.of(arguments[0]), System.getProperty("java.class.path"));
  }
}
