package org.gradus.history;

import static java.util.Objects.requireNonNull;

import java.io.Closeable;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.JournalFailed;
import org.gradus.history.TestRecord.Entry;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Ledger;
import org.gradus.session.Session;

/**
 * A record that is written while the test runs. Each event is on the disk before the session
 * answers; one that cannot be written has not happened, and can be told again. The file can be read
 * by its owner only, where the file system knows owners.
 *
 * <pre>{@code
 * try (Journal journal = Journal.create(file, walk, person, Optional.empty())) {
 *   Session session = Session.open(walk, person, journal);
 *   ...
 * }
 * // after a crash
 * try (Journal.Reopened again = Journal.reopen(file, library)) {
 *   again.session().decide(now);
 * }
 * }</pre>
 *
 * <p>A journal has one opener. Until it is closed, or its process ends, any other one is refused
 * with {@link Code#G610}, in this process and in others on the same machine, by whatever path they
 * reach the file but a hard link. The lock is a file beside the journal, {@code NAME.lock}, deleted
 * on closing; one that a killed process left locks nothing. On a network drive it holds as far as
 * the drive supports locks. Reading the file meanwhile is always possible.
 *
 * <p>An interrupt of the thread neither stops nor damages a write; the thread stays interrupted.
 */
public final class Journal implements Ledger, AutoCloseable {

  private static final String CUT_OFF = "cut-off-";

  private final Path file;
  private final Storage storage;
  private final Closeable lock;
  private long length;
  private String sum;
  private boolean torn;
  private boolean closed;

  /**
   * A journal that goes on behind what is there.
   *
   * @param lock what to close after the storage
   * @param length how many bytes of the storage are sound
   * @param sum the sum of the last line that is sound
   */
  private Journal(Path file, Storage storage, Closeable lock, long length, String sum) {
    this.file = file;
    this.storage = storage;
    this.lock = lock;
    this.length = length;
    this.sum = sum;
  }

  /**
   * Begins a journal in a new file. When it fails, no file is left.
   *
   * @param identity whose test it is, if that is to stand in the file
   * @throws JournalFailed when the file exists already, is in use, or cannot be written
   * @throws org.gradus.diagnostic.ReadingRefused when the identity is longer than {@link
   *     Title#LONGEST_IDENTITY} characters
   */
  public static Journal create(
      Path file, Protocol protocol, Person person, Optional<String> identity) {
    return create(file, Title.of(protocol, person, identity));
  }

  /**
   * Begins a journal in a new file, with a head of the host's making, such as one that says when
   * the session was opened. When it fails, no file is left.
   *
   * @throws JournalFailed when the file exists already, is in use, or cannot be written
   */
  public static Journal create(Path file, Title title) {
    requireNonNull(file, "file");
    requireNonNull(title, "title");
    return create(file, title, LocalFile::create);
  }

  /** Opens or creates what a journal is kept in. */
  @FunctionalInterface
  interface Opener {

    /** The storage at a path. */
    Storage open(Path path) throws IOException;
  }

  static Journal create(Path file, Title title, Opener creator) {
    try (Unfinished unfinished = new Unfinished()) {
      JournalLock lock = unfinished.also(JournalLock.hold(real(file)));
      Storage storage = creator.open(file);
      unfinished.also(() -> Files.deleteIfExists(file));
      unfinished.also(storage);
      Journal journal = new Journal(file, storage, lock, 0, Lines.FIRST);
      journal.append(title.write(), line -> Title.read(line).write());
      return unfinished.finished(journal);
    } catch (IOException e) {
      throw failed(file, e);
    }
  }

  // The folder of a journal exists before the journal does.
  private static Path real(Path file) throws IOException {
    Path absolute = file.toAbsolutePath();
    Path folder = absolute.getParent();
    Path name = absolute.getFileName();
    if (folder == null || name == null || Files.isDirectory(absolute)) {
      throw new IOException("it is a folder");
    }
    return folder.toRealPath().resolve(name);
  }

  /**
   * A journal that goes on, and its session.
   *
   * @param session the session as it stood
   * @param journal the journal, which keeps its further events
   * @param dropped what was cut off the end because it was torn or damaged, in words; empty if
   *     nothing
   */
  public record Reopened(Session session, Journal journal, Optional<String> dropped)
      implements AutoCloseable {
    @Override
    public void close() {
      journal.close();
    }
  }

  /**
   * Takes a test up again. A last line that was torn, and whatever follows a damaged line, is cut
   * off and reported.
   *
   * @throws JournalFailed when the file is in use or cannot be read
   * @throws org.gradus.diagnostic.RecordRefused when its head is damaged, or a line that is not
   *     damaged says what no record says, and then nothing is cut off; and when the protocol means
   *     something else in the library than in the record
   */
  public static Reopened reopen(Path file, Library library) {
    requireNonNull(library, "library");
    try (Unfinished unfinished = new Unfinished()) {
      Path real = file.toRealPath();
      if (!Files.isRegularFile(real)) {
        throw new IOException("it is not a file");
      }
      JournalLock lock = unfinished.also(JournalLock.hold(real));
      refuseLongerThan(RecordLines.LONGEST, Files.size(real));
      byte[] bytes = Files.readAllBytes(real);
      // Records are plain ASCII: one character is one byte.
      String text = new String(bytes, StandardCharsets.ISO_8859_1);
      RecordLines lines = RecordLines.of(file.toString(), text);
      Storage storage = unfinished.also(LocalFile.open(real));
      Journal journal = new Journal(file, storage, lock, lines.length(), lines.sum());
      // Nothing is cut off before it is sure that the test can be taken up with this library.
      Session session = lines.record().resume(library, journal);
      Optional<String> dropped = journal.drop(bytes, lines);
      return unfinished.finished(new Reopened(session, journal, dropped));
    } catch (IOException e) {
      throw failed(file, e);
    }
  }

  // What is cut off is kept beside the journal, for somebody who may still read something in it.
  private Optional<String> drop(byte[] bytes, RecordLines lines) throws IOException {
    if (lines.damagedLine() == 0) {
      return Optional.empty();
    }
    Path beside = Files.createTempFile(file.toAbsolutePath().getParent(), CUT_OFF, ".jsonl");
    Files.write(beside, Arrays.copyOfRange(bytes, lines.length(), bytes.length));
    storage.cutTo(length);
    return Optional.of(
        "line "
            + lines.damagedLine()
            + " and "
            + (bytes.length - lines.length())
            + " bytes from it on; they are kept in "
            + beside.getFileName());
  }

  /**
   * Writes an event to the disk.
   *
   * @throws JournalFailed when it cannot be written, or the journal is closed; then nothing of it
   *     is read back later, and the event can be told again
   */
  @Override
  public void keep(int number, Event event, Decision answer) {
    try {
      append(Entry.of(number, event, answer).fields(), line -> Entry.read(line).fields());
    } catch (IOException e) {
      throw failed(file, e);
    }
  }

  // Whatever the limits on single fields are: nothing is written that could not be read.
  static void refuseUnlessReadBack(Map<String, Object> fields, Reader reader) throws IOException {
    String line = Json.write(fields);
    refuseLongerThan(Lines.LONGEST, line.length());
    boolean same;
    try {
      same = Json.write(reader.read(Fields.read(line))).equals(line);
    } catch (Unreadable problem) {
      throw new IOException("it could not be read back: " + problem.getMessage(), problem);
    }
    if (!same) {
      throw new IOException("it would be read back as something else");
    }
  }

  private static void refuseLongerThan(long longest, long length) throws IOException {
    if (length > longest) {
      throw new IOException("it would be " + length + " bytes long; at most " + longest);
    }
  }

  /** Reads a line as it is read later. */
  @FunctionalInterface
  interface Reader {

    /** The fields of a line that would be written for what was read. */
    Map<String, Object> read(Fields line);
  }

  private synchronized void append(Map<String, Object> fields, Reader reader) throws IOException {
    if (closed) {
      throw new JournalFailed(Code.G611, file.toString(), "nothing can be added to it");
    }
    refuseUnlessReadBack(fields, reader);
    String line = Lines.sealed(fields, sum);
    byte[] bytes = (line + "\n").getBytes(StandardCharsets.US_ASCII);
    refuseLongerThan(RecordLines.LONGEST, length + bytes.length);
    if (!storage.isInPlace()) {
      throw new IOException("it was deleted or replaced while it was open");
    }
    if (torn) {
      storage.cutTo(length);
    } else if (storage.length() != length) {
      throw new IOException(
          "something else has changed it; it should have "
              + length
              + " bytes and has "
              + storage.length());
    }
    torn = true;
    try {
      storage.append(bytes);
    } catch (IOException e) {
      cutBack(e);
      throw e;
    }
    length += bytes.length;
    sum = Lines.sum(line);
    torn = false;
  }

  // What was written of a line must not be taken for an event later. If it cannot be cut off now,
  // it is before the next line is written.
  private void cutBack(IOException cause) {
    try {
      storage.cutTo(length);
      torn = false;
    } catch (IOException again) {
      cause.addSuppressed(again);
    }
  }

  private static JournalFailed failed(Path file, IOException e) {
    String name = file.toString();
    Path folder = file.toAbsolutePath().getParent();
    if (folder != null && !Files.isDirectory(folder)) {
      return new JournalFailed(Code.G613, name, "there is no folder " + folder, e);
    } else if (e instanceof FileAlreadyExistsException) {
      return new JournalFailed(Code.G614, name, "there is such a file already", e);
    } else if (e instanceof NoSuchFileException) {
      return new JournalFailed(Code.G613, name, "there is no such file", e);
    }
    String reason = reason(e);
    return new JournalFailed(isFull(file, reason) ? Code.G612 : Code.G607, name, reason, e);
  }

  private static String reason(IOException e) {
    if (e instanceof AccessDeniedException) {
      return "access to " + e.getMessage() + " is denied";
    }
    return e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
  }

  // What the system says follows its language, and what it counts as free knows no quotas: either
  // is enough.
  private static boolean isFull(Path file, String reason) {
    String words = reason.toLowerCase(Locale.ROOT);
    if (words.contains("no space left") || words.contains("quota")) {
      return true;
    }
    try {
      return Files.getFileStore(file.toAbsolutePath().getParent()).getUsableSpace() == 0;
    } catch (IOException unknown) {
      return false;
    }
  }

  /**
   * Closes the file, so that it can be reopened. Closing it again changes nothing.
   *
   * @throws JournalFailed when the file system fails; every event that was acknowledged is on the
   *     disk all the same
   */
  @Override
  public synchronized void close() {
    if (closed) {
      return;
    }
    closed = true;
    try {
      try {
        storage.close();
      } finally {
        lock.close();
      }
    } catch (IOException e) {
      throw failed(file, e);
    }
  }
}
