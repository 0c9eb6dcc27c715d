package org.gradus.examples.workbench;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

/** Writes a file whole or not at all, and never over something that was read. */
final class OutputFile {

  private static final FileAttribute<?>[] NO_ATTRIBUTES = {};
  private static final FileAttribute<?>[] OWNER_ONLY = {
    PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------"))
  };

  private OutputFile() {}

  /**
   * Refuses a file that is one of the inputs, by whatever name or link.
   *
   * @throws UncheckedIOException when it is
   */
  static void refuseInput(Path file, List<Path> inputs) {
    for (Path input : inputs) {
      boolean same;
      try {
        same = Files.exists(file) && Files.exists(input) && Files.isSameFile(file, input);
      } catch (IOException e) {
        throw CommandContext.cannot("write", file, e);
      }
      if (same) {
        String what =
            "cannot write " + file + ": it is the same file as " + input + "; name another file";
        throw new UncheckedIOException(what, new IOException(what));
      }
    }
  }

  /**
   * Writes it: into a file beside it first, which then takes its place.
   *
   * @throws UncheckedIOException when it cannot be written; what was there before is then unchanged
   */
  static void write(Path file, String text) {
    try {
      if (Files.exists(file) && !Files.isRegularFile(file)) {
        // A pipe or a device has no place to take; a folder refuses.
        Files.writeString(file, text);
      } else {
        replace(Files.exists(file) ? file.toRealPath() : file.toAbsolutePath(), text);
      }
    } catch (IOException e) {
      throw CommandContext.cannot("write", file, e);
    }
  }

  /**
   * Writes a new file that only its owner can read, where the file system knows owners.
   *
   * @throws UncheckedIOException when it cannot be written, or there is such a file already
   */
  static void create(Path file, String text) {
    try {
      boolean owned = Files.getFileStore(parent(file)).supportsFileAttributeView("posix");
      Files.createFile(file, owned ? OWNER_ONLY : NO_ATTRIBUTES);
      Files.writeString(file, text);
    } catch (IOException e) {
      throw CommandContext.cannot("write", file, e);
    }
  }

  /** Makes a folder where it is not there. */
  static void folder(Path folder) {
    try {
      Files.createDirectories(folder);
    } catch (IOException e) {
      throw CommandContext.cannot("write", folder, e);
    }
  }

  private static Path parent(Path file) {
    return Optional.ofNullable(file.toAbsolutePath().getParent()).orElse(file);
  }

  private static void replace(Path file, String text) throws IOException {
    Path beside = file.resolveSibling("." + file.getFileName() + "." + UUID.randomUUID() + ".part");
    try {
      Files.writeString(beside, text, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
      try {
        Files.move(beside, file, StandardCopyOption.ATOMIC_MOVE);
      } catch (AtomicMoveNotSupportedException e) {
        Files.move(beside, file, StandardCopyOption.REPLACE_EXISTING);
      }
    } finally {
      Files.deleteIfExists(beside);
    }
  }
}
