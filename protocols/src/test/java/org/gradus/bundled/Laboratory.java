package org.gradus.bundled;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Objects;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;

/** Invented protocols of a laboratory, which say what no bundled protocol says. */
final class Laboratory {

  private static final List<String> FILES =
      List.of(
          "basin.yaml",
          "basin-equations.yaml",
          "flume-steps.yaml",
          "rowing-lactate.yaml",
          "work-and-rest.yaml",
          "guided-treadmill.yaml",
          "stage-readings.yaml",
          "laboratory-results.yaml");

  private Laboratory() {}

  /** The files. */
  static List<SourceFile> files() {
    return FILES.stream().map(Laboratory::file).toList();
  }

  /** What they hold together. */
  static Library library() {
    return Library.of(files());
  }

  /** What they hold with one text changed in every file that has it. */
  static Library library(String part, String by) {
    return Library.of(
        FILES.stream()
            .map(Laboratory::file)
            .map(file -> SourceFile.of(file.name(), file.text().replace(part, by)))
            .toList());
  }

  private static SourceFile file(String name) {
    try (InputStream stream =
        Objects.requireNonNull(Laboratory.class.getResourceAsStream("laboratory/" + name), name)) {
      return Library.file(name, stream);
    } catch (IOException e) {
      throw new UncheckedIOException("cannot read " + name, e);
    }
  }
}
