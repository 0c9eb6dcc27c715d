package org.gradus.library;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.gradus.diagnostic.SourceFile;
import org.gradus.protocol.Protocol;

/** Invented protocols that have, between them, every structure that a protocol can have. */
public final class Structures {

  /** Their names. */
  public static final List<String> NAMES =
      List.of(
          "branching",
          "maximal",
          "mile",
          "ramp",
          "shuttle",
          "single-load",
          "single-stage",
          "steps",
          "survey");

  private Structures() {}

  /** All of them, with what they include. */
  public static Library library() {
    List<SourceFile> files = new ArrayList<>(List.of(file("common"), file("equations")));
    NAMES.forEach(name -> files.add(file(name)));
    return Library.of(files);
  }

  /** One of them. */
  public static Protocol of(String name) {
    return Library.of(List.of(file("common"), file("equations"), file(name))).protocol(name);
  }

  static SourceFile file(String name) {
    try (InputStream stream =
        Objects.requireNonNull(
            Structures.class.getResourceAsStream("structures/" + name + ".yaml"), name)) {
      return Library.file(name + ".yaml", stream);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
