package org.gradus.examples.workbench;

import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
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
class CommandContext {

  private static final int LARGEST_RECORD = 64_000_000;

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
        "--folder " + folder + ": there is no such folder; name one that holds your files");
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
      return paths
          .filter(path -> path.toString().endsWith(".yaml") && Files.isRegularFile(path))
          .sorted()
          .toList();
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
    refuseUnlessFile(file);
    try (InputStream stream = Files.newInputStream(file)) {
      return Library.file(file.getFileName().toString(), stream);
    } catch (IOException e) {
      throw cannot("read", file, e);
    }
  }

  // A pipe may never end, and a device never does.
  private static void refuseUnlessFile(Path file) {
    if (Files.exists(file) && !Files.isRegularFile(file)) {
      throw cannot("read", file, new IOException("not a regular file"));
    }
  }

  /** What a command reads: the file it was given, and those of the folder. */
  List<Path> inputs(Path file) {
    List<Path> inputs = new ArrayList<>(List.of(file));
    if (folder != null && Files.isDirectory(folder)) {
      inputs.addAll(yaml(folder));
    }
    return inputs;
  }

  /** The record of a test that was named on the command line. */
  static TestRecord record(Path file) {
    return TestRecord.parse(file.getFileName().toString(), recordText(file));
  }

  /** The text of a record, damaged or not; refuses what never was one. */
  static String recordText(Path file) {
    String text;
    refuseUnlessFile(file);
    try (InputStream stream = Files.newInputStream(file)) {
      byte[] bytes = stream.readNBytes(LARGEST_RECORD + 1);
      if (bytes.length > LARGEST_RECORD) {
        String what =
            "cannot read "
                + file
                + ": it is larger than any record of a test, which has at most 64 MB";
        throw new UncheckedIOException(what, new IOException(what));
      }
      text = StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes)).toString();
    } catch (IOException e) {
      throw cannot("read", file, e);
    }
    if (!text.startsWith("{")) {
      String what =
          file.getFileName() + " is not the record of a test; run ID --record FILE writes one";
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
    } else if (Files.exists(file) && !Files.isRegularFile(file)) {
      why = "it is a pipe or a device; write it to a file first, and name that";
    } else if (problem instanceof CharacterCodingException) {
      why = "it is not text in UTF-8";
    } else if (problem instanceof AccessDeniedException) {
      why = "you have no right to; check the rights of the file and its folder";
    } else {
      why = String.valueOf(problem.getMessage()) + "; check the file, its folder and the disk";
    }
    return new UncheckedIOException("cannot " + what + " " + file + ": " + why, problem);
  }

  /** Writes text for people; lines that do not fit are wrapped. */
  void line(String text) {
    Wrap.text(text, columns()).forEach(out()::println);
  }

  /** The same, to the errors. */
  void complain(String text) {
    Wrap.text(text, columns()).forEach(errors()::println);
  }

  /** How wide lines for people may be; 0 for any width. */
  int columns() {
    return workbench().columns();
  }

  private Workbench workbench() {
    return (Workbench) spec().root().userObject();
  }

  /** What is typed. */
  InputStream in() {
    return workbench().in();
  }

  /** The terminal itself: what is written here it obeys. */
  PrintWriter terminal() {
    return workbench().terminal();
  }

  /** The same for what is not as it should be. */
  PrintWriter errorTerminal() {
    return workbench().errorTerminal();
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
