package org.gradus.bundled;

import static java.util.Objects.requireNonNull;

import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import org.gradus.diagnostic.InputRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;

/**
 * The library that comes with Gradus.
 *
 * <pre>{@code
 * Protocol walk = Bundled.library().protocol("graded-walk-standard");
 * }</pre>
 *
 * <p>The files advise a trained person who decides. Medical clearance, an emergency plan, local
 * rules and licensed practice come before anything they say.
 */
public final class Bundled {

  private static final String INDEX = "index.txt";
  private static final String CASES = "cases.txt";

  private Bundled() {}

  /** Made when it is first asked for; kept for as long as this class is. */
  private static final class Whole {

    private static final Library LIBRARY = Library.of(files());
  }

  /**
   * All bundled files, read and checked. The first call takes a moment; every later one gives the
   * same library, which is immutable and may be shared by all threads.
   */
  public static Library library() {
    try {
      return Whole.LIBRARY;
    } catch (LinkageError failed) {
      // Of a class that cannot be made Java keeps the reason to itself; this throws it.
      return Library.of(files());
    }
  }

  /**
   * Reads the bundled files and checks only some protocols: a fast start for a program that needs
   * few.
   *
   * @param protocols their ids
   * @throws org.gradus.diagnostic.NotFound when there is no protocol of one of these ids
   */
  public static Library library(String... protocols) {
    requireNonNull(protocols, "protocols");
    return Library.of(files(), List.of(protocols));
  }

  /** The bundled files themselves, to be read together with others. */
  public static List<SourceFile> files() {
    return listed(INDEX);
  }

  /**
   * The cases of the bundled files, for {@code org.gradus.cases.Cases.read}. Those of a protocol
   * are named after it, as in {@code graded-walk-standard.cases.yaml}. Those of a rule set hold for
   * every protocol that includes it: each is named after the rule it shows, and {@code for} names
   * one of those protocols.
   */
  public static List<SourceFile> cases() {
    return listed(CASES);
  }

  private static List<SourceFile> listed(String index) {
    List<SourceFile> files = new ArrayList<>();
    // An index, since what lies on a class path cannot be listed.
    for (String name : read(index).text().lines().toList()) {
      files.add(read(name));
    }
    return files;
  }

  /** What virtual people are like in a trial, each figure with its source. */
  public static SourceFile people() {
    return read("people/adults.yaml");
  }

  private static SourceFile read(String name) {
    try (InputStream stream = Bundled.class.getResourceAsStream(name)) {
      if (stream == null) {
        throw new IOException("not on the class path: " + name);
      }
      return Library.file(name, stream);
    } catch (IOException e) {
      throw InputRefused.inJar(name, e);
    }
  }
}
