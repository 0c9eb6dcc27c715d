package org.gradus.examples.workbench;

import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.charset.CharacterCodingException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.gradus.bundled.Bundled;
import org.gradus.diagnostic.SourceFile;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
import org.gradus.protocol.Protocol;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Where protocols come from; part of every command. */
class Shelf {

  @Option(
      names = {"-f", "--folder"},
      paramLabel = "DIR",
      description = "A folder with files of your own, which may use the bundled ones.")
  private @Nullable Path folder;

  @Spec(Spec.Target.MIXEE)
  private @Nullable CommandSpec spec;

  Optional<Path> folder() {
    return Optional.ofNullable(folder);
  }

  /** The bundled files with those of the folder. */
  Library library() {
    Library bundled = Bundled.library();
    if (folder == null) {
      return bundled;
    }
    refuseWithoutFolder();
    return bundled.and(folder);
  }

  /** Refuses a folder that is not there. */
  void refuseWithoutFolder() {
    refuseUnless(
        folder == null || Files.isDirectory(folder),
        "--folder " + folder + ": there is no such folder; name one with files of your own");
  }

  /** Refuses what was asked for, with a sentence that says what would do. */
  void refuseUnless(boolean possible, String sentence) {
    if (!possible) {
      throw new ParameterException(spec().commandLine(), sentence);
    }
  }

  Protocol protocol(String id) {
    return library().protocol(id);
  }

  /** The YAML files of a folder, by name. */
  static List<Path> yaml(Path folder) {
    try (Stream<Path> paths = Files.list(folder)) {
      return paths.filter(path -> path.toString().endsWith(".yaml")).sorted().toList();
    } catch (IOException e) {
      throw cannot("read", folder, e);
    }
  }

  /** Whether a file says what a protocol must answer, by its name. */
  static boolean isCases(Path file) {
    return file.toString().endsWith(".cases.yaml");
  }

  /** A file that was named on the command line. */
  static SourceFile read(Path file) {
    if (Files.isDirectory(file)) {
      throw cannot("read", file, new IOException("a folder"));
    }
    try (InputStream stream = Files.newInputStream(file)) {
      return Library.file(file.getFileName().toString(), stream);
    } catch (IOException e) {
      throw cannot("read", file, e);
    }
  }

  /** The record of a test that was named on the command line. */
  static TestRecord record(Path file) {
    return TestRecord.parse(file.getFileName().toString(), recordText(file));
  }

  /** The text of a record, damaged or not; refuses what never was one. */
  static String recordText(Path file) {
    String text;
    try {
      text = Files.readString(file);
    } catch (IOException e) {
      throw cannot("read", file, e);
    }
    if (!text.startsWith("{")) {
      String what = file.getFileName() + " is no record of a test; run ID --record FILE writes one";
      throw new UncheckedIOException(what, new IOException(what));
    }
    return text;
  }

  /** What keeps a file from being read or written, and what to do. */
  static UncheckedIOException cannot(String what, Path file, IOException problem) {
    Path parent = file.toAbsolutePath().getParent();
    String why;
    if (parent != null && !Files.isDirectory(parent)) {
      why = "there is no folder " + parent;
    } else if (problem instanceof NoSuchFileException) {
      why = "there is no such file";
    } else if (Files.isDirectory(file)) {
      why = "it is a folder; name a file, or use --folder " + file;
    } else if (problem instanceof CharacterCodingException) {
      why = "it is no text in UTF-8";
    } else {
      why = "look at the rights of the file and its folder";
    }
    return new UncheckedIOException("cannot " + what + " " + file + ": " + why, problem);
  }

  /** Writes for people, a line or more: those that do not fit are parted. */
  void line(String text) {
    Wrap.text(text, columns()).forEach(out()::println);
  }

  /** The same, where something is not as it should be. */
  void complain(String text) {
    Wrap.text(text, columns()).forEach(errors()::println);
  }

  /** How wide lines for people may be; 0 for any width. */
  int columns() {
    return spec().root().userObject() instanceof Workbench workbench ? workbench.columns() : 0;
  }

  PrintWriter out() {
    return spec().commandLine().getOut();
  }

  PrintWriter errors() {
    return spec().commandLine().getErr();
  }

  private CommandSpec spec() {
    if (spec == null) {
      throw new IllegalStateException("used before the command line was read");
    }
    return spec;
  }
}
