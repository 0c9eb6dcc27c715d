package org.gradus.review;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Protocol;

/** An invented walk in which a review finds nothing, and the same with faults put in. */
final class Lane {

  private static final List<String> FILES =
      List.of("lane-walk.yaml", "lane-set.yaml", "lane-equations.yaml");

  private final List<String> texts = new ArrayList<>();

  private Lane() {
    FILES.forEach(name -> texts.add(text(name)));
  }

  static Lane sound() {
    return new Lane();
  }

  /** With a part of a file replaced; the part must be in it once. */
  Lane with(String part, String by) {
    for (int i = 0; i < texts.size(); i++) {
      int at = texts.get(i).indexOf(part);
      if (at >= 0 && texts.get(i).indexOf(part, at + 1) < 0) {
        texts.set(i, texts.get(i).replace(part, by));
        return this;
      }
    }
    throw new IllegalArgumentException("not there once: " + part);
  }

  Protocol protocol() {
    List<SourceFile> files = new ArrayList<>();
    for (int i = 0; i < texts.size(); i++) {
      files.add(SourceFile.of(FILES.get(i), texts.get(i)));
    }
    return Library.of(files).protocol("lane-walk");
  }

  Review review() {
    return Review.of(protocol());
  }

  private static String text(String name) {
    try (InputStream stream = Lane.class.getResourceAsStream(name)) {
      if (stream == null) {
        throw new IOException("not on the class path: " + name);
      }
      return new String(stream.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
