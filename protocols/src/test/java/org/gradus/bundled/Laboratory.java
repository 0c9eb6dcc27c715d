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
      List.of("basin.yaml", "basin-equations.yaml", "flume-steps.yaml");

  private Laboratory() {}

  static Library library() {
    return Library.of(FILES.stream().map(Laboratory::file).toList());
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
