package org.gradus.history;

import java.io.Closeable;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.HashSet;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.JournalFailed;

/**
 * Holds a journal for one opener: one in this process, and one process among all. The operating
 * system releases the lock of a process that ends, however it ends.
 *
 * <p>The lock is on a file of its own beside the journal. On POSIX systems a process loses its lock
 * on a file when anything in it closes that file, so a lock on the journal itself would be lost as
 * soon as the host read the record while the test runs.
 */
final class JournalLock implements Closeable {

  private static final String SUFFIX = ".lock";

  // The lock is on a byte far behind the text, which others can then read where locks are binding.
  private static final long LOCKED = Long.MAX_VALUE - 1;
  private static final int LONGEST_HOLDER = 100;
  private static final String HOLDER = "process [0-9]+[0-9A-Za-z:., -]*";

  // The system keeps one process from another, but not the openers within one process. These are
  // the journals that this process holds; guarded by itself.
  private static final Set<Path> HELD = new HashSet<>();

  private final Path journal;
  private final Path path;
  private final RandomAccessFile file;

  private JournalLock(Path journal) throws IOException {
    this.journal = journal;
    this.path = journal.resolveSibling(journal.getFileName() + SUFFIX);
    this.file = lock(path, journal);
  }

  /**
   * Holds a journal that exists or is about to be created.
   *
   * @param journal its real path, by which every opener knows it
   * @throws JournalFailed G610 when it is held, and by whom
   */
  static JournalLock hold(Path journal) throws IOException {
    synchronized (HELD) {
      if (!HELD.add(journal)) {
        throw inUse(journal, "this " + self());
      }
    }
    boolean held = false;
    try {
      JournalLock lock = new JournalLock(journal);
      held = true;
      return lock;
    } finally {
      if (!held) {
        release(journal);
      }
    }
  }

  private static void release(Path journal) {
    synchronized (HELD) {
      HELD.remove(journal);
    }
  }

  private static JournalFailed inUse(Path journal, String holder) {
    return new JournalFailed(Code.G610, journal.toString(), holder);
  }

  private static RandomAccessFile lock(Path path, Path journal) throws IOException {
    Optional<RandomAccessFile> locked = Optional.empty();
    while (locked.isEmpty()) {
      locked = tryLock(path, journal);
    }
    return locked.get();
  }

  // Empty when the file was deleted meanwhile by an opener that has just released it: a lock on a
  // deleted file holds nothing.
  private static Optional<RandomAccessFile> tryLock(Path path, Path journal) throws IOException {
    try {
      Files.createFile(path, LocalFile.ownerOnly(path));
    } catch (FileAlreadyExistsException left) {
      // Left by a process that was killed, or held: the lock tells.
    }
    Optional<Object> before = identity(path);
    RandomAccessFile file = new RandomAccessFile(path.toFile(), "rw");
    boolean locked = false;
    try {
      if (file.getChannel().tryLock(LOCKED, 1, false) == null) {
        throw inUse(journal, holder(file));
      }
      locked = before.isPresent() && before.equals(identity(path));
      if (locked) {
        file.setLength(0);
        file.write(self().getBytes(StandardCharsets.US_ASCII));
      }
    } catch (OverlappingFileLockException e) {
      // Held through another copy of this class, loaded by another class loader.
      throw inUse(journal, "this " + self());
    } finally {
      if (!locked) {
        file.close();
      }
    }
    return locked ? Optional.of(file) : Optional.empty();
  }

  private static Optional<Object> identity(Path path) throws IOException {
    try {
      BasicFileAttributes attributes = Files.readAttributes(path, BasicFileAttributes.class);
      // Where files have no key, a file that is open cannot be deleted either.
      return Optional.of(Objects.requireNonNullElse(attributes.fileKey(), path));
    } catch (NoSuchFileException e) {
      return Optional.empty();
    }
  }

  private static String self() {
    ProcessHandle process = ProcessHandle.current();
    return "process "
        + process.pid()
        + process.info().startInstant().map(start -> ", started " + start).orElse("");
  }

  private static String holder(RandomAccessFile file) throws IOException {
    byte[] text = new byte[LONGEST_HOLDER];
    int length = Math.max(0, file.read(text));
    String holder = new String(text, 0, length, StandardCharsets.US_ASCII);
    // Anybody can write into this file; what is shown is only what it is meant to say.
    return holder.matches(HOLDER) ? holder : "another process";
  }

  /** Releases the journal. */
  @Override
  public void close() throws IOException {
    try {
      Files.deleteIfExists(path);
    } catch (IOException stays) {
      // Some systems do not delete what is open. A file that stays is no lock.
    } finally {
      file.close();
      release(journal);
    }
  }
}
