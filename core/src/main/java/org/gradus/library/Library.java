package org.gradus.library;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.NotFound;
import org.gradus.diagnostic.SourceFile;
import org.gradus.diagnostic.Span;
import org.gradus.diagnostic.Suggestion;
import org.gradus.protocol.Protocol;

/**
 * Protocols, read from files together with the rule sets and equations they rest on.
 *
 * <pre>{@code
 * Library library = Library.load(Path.of("my-protocols"));
 * Protocol walk = library.protocol("graded-walk-standard");
 * }</pre>
 *
 * <p>A library either loads whole or not at all: every problem of every file is reported in one
 * {@link FileRefused}. What loads is total and finite: every stage end comes to a verdict and every
 * test ends. Immutable; shared freely between threads.
 *
 * <p>Gradus advises a trained person who decides. It is no medical device: medical clearance, an
 * emergency plan, local rules and licensed practice come before anything it says.
 */
public final class Library {

  private final List<SourceFile> files;
  private final Map<String, Protocol> protocols;

  private Library(List<SourceFile> files) {
    this.files = List.copyOf(files);
    this.protocols = new Loader(this.files).load();
  }

  /**
   * Reads files that are already in memory.
   *
   * @throws FileRefused with every problem found
   */
  public static Library of(Collection<SourceFile> files) {
    return new Library(List.copyOf(files));
  }

  /**
   * Reads every {@code .yaml} file of a folder, but not of folders in it. Files named {@code
   * *.cases.yaml} hold test cases and are passed over.
   *
   * @throws FileRefused with every problem found
   * @throws UncheckedIOException when a file cannot be read at all
   */
  public static Library load(Path folder) {
    return new Library(filesIn(folder));
  }

  /**
   * These files together with those of a folder, which may use and include them.
   *
   * @throws FileRefused with every problem found
   * @throws UncheckedIOException when a file cannot be read at all
   */
  public Library and(Path folder) {
    List<SourceFile> all = new ArrayList<>(files);
    all.addAll(filesIn(folder));
    return new Library(all);
  }

  private static List<SourceFile> filesIn(Path folder) {
    try (Stream<Path> paths = Files.list(folder)) {
      List<SourceFile> found = new ArrayList<>();
      for (Path path : paths.filter(Library::isRead).sorted().toList()) {
        found.add(decode(path.getFileName().toString(), Files.readAllBytes(path)));
      }
      return found;
    } catch (IOException e) {
      throw new UncheckedIOException("cannot read the folder " + folder, e);
    }
  }

  private static boolean isRead(Path path) {
    String name = path.getFileName().toString();
    return name.endsWith(".yaml") && !name.endsWith(".cases.yaml");
  }

  /**
   * Reads one file from a stream, as UTF-8, for {@link #of}. The stream is not closed.
   *
   * @param name the name to show in messages
   * @throws FileRefused when it is not UTF-8
   * @throws UncheckedIOException when it cannot be read
   */
  public static SourceFile file(String name, InputStream stream) {
    try {
      return decode(name, stream.readAllBytes());
    } catch (IOException e) {
      throw new UncheckedIOException("cannot read " + name, e);
    }
  }

  private static SourceFile decode(String name, byte[] bytes) {
    try {
      String text =
          StandardCharsets.UTF_8
              .newDecoder()
              .onMalformedInput(CodingErrorAction.REPORT)
              .onUnmappableCharacter(CodingErrorAction.REPORT)
              .decode(ByteBuffer.wrap(bytes))
              .toString();
      return SourceFile.of(name, text.startsWith("\uFEFF") ? text.substring(1) : text);
    } catch (CharacterCodingException e) {
      Span start = new Span(SourceFile.of(name, ""), 0, 0);
      throw new FileRefused(
          List.of(
              Diagnostic.at(start, Code.G301, "its bytes are not UTF-8 text", "save it as UTF-8")));
    }
  }

  /** The ids of the protocols, sorted. */
  public List<String> protocols() {
    return protocols.keySet().stream().sorted().toList();
  }

  /**
   * A protocol.
   *
   * @param id for example {@code "graded-walk-standard"}
   * @throws NotFound when there is none of that id
   */
  public Protocol protocol(String id) {
    Protocol protocol = protocols.get(id);
    if (protocol == null) {
      String help =
          Suggestion.help(id, protocols.keySet(), "there are " + String.join(", ", protocols()));
      throw new NotFound(Code.G604, "protocol", id, help);
    }
    return protocol;
  }
}
