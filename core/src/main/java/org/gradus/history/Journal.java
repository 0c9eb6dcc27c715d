package org.gradus.history;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Arrays;
import java.util.Optional;
import java.util.Set;
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
 * answers; one that cannot be written has not happened. The file can be read by its owner only,
 * where the file system knows owners.
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
 */
public final class Journal implements Ledger, AutoCloseable {

  private static final String CUT_OFF = "cut-off-";

  private final Path file;
  private final FileChannel channel;

  private Journal(Path file, FileChannel channel) {
    this.file = file;
    this.channel = channel;
  }

  /**
   * Begins a journal in a new file.
   *
   * @param identity whose test it is, if that is to stand in the file
   * @throws JournalFailed when the file exists already or cannot be written
   */
  public static Journal create(
      Path file, Protocol protocol, Person person, Optional<String> identity) {
    try {
      Set<StandardOpenOption> options =
          Set.of(StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
      Journal journal = new Journal(file, FileChannel.open(file, options, ownerOnly(file)));
      journal.append(Lines.sealed(Title.of(protocol, person, identity).write()));
      return journal;
    } catch (FileAlreadyExistsException e) {
      throw new JournalFailed(Code.G607, file.toString(), "it exists already");
    } catch (IOException e) {
      throw failed(file, e);
    }
  }

  private static FileAttribute<?>[] ownerOnly(Path file) {
    boolean posix = file.getFileSystem().supportedFileAttributeViews().contains("posix");
    return posix
        ? new FileAttribute<?>[] {
          PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------"))
        }
        : new FileAttribute<?>[0];
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
   * @throws JournalFailed when the file cannot be read or its head is damaged
   * @throws org.gradus.diagnostic.VerdictRefused when the library holds other files than the record
   *     was made with
   */
  public static Reopened reopen(Path file, Library library) {
    try {
      byte[] bytes = Files.readAllBytes(file);
      // Records are plain ASCII: one character is one byte.
      String text = new String(bytes, StandardCharsets.ISO_8859_1);
      RecordLines lines = RecordLines.of(file.toString(), text);
      Journal journal = new Journal(file, FileChannel.open(file, StandardOpenOption.WRITE));
      try {
        // Nothing is cut off before it is sure that the test can be taken up with this library.
        Session session = lines.record().resume(library, journal);
        return new Reopened(session, journal, journal.drop(bytes, lines));
      } catch (IOException | RuntimeException e) {
        journal.channel.close();
        throw e;
      }
    } catch (IOException e) {
      throw failed(file, e);
    }
  }

  // What is cut off is kept beside the journal, for somebody who may still read something in it.
  private Optional<String> drop(byte[] bytes, RecordLines lines) throws IOException {
    channel.position(lines.length());
    if (lines.damagedLine() == 0) {
      return Optional.empty();
    }
    Path beside = Files.createTempFile(file.toAbsolutePath().getParent(), CUT_OFF, ".jsonl");
    Files.write(beside, Arrays.copyOfRange(bytes, lines.length(), bytes.length));
    channel.truncate(lines.length());
    return Optional.of(
        "line "
            + lines.damagedLine()
            + " and "
            + (bytes.length - lines.length())
            + " bytes from it on; they are kept in "
            + beside.getFileName());
  }

  @Override
  public void keep(int number, Event event, Decision answer) {
    try {
      append(Entry.of(number, event, answer).line());
    } catch (IOException e) {
      throw failed(file, e);
    }
  }

  private void append(String line) throws IOException {
    long before = channel.position();
    ByteBuffer bytes = ByteBuffer.wrap((line + "\n").getBytes(StandardCharsets.US_ASCII));
    try {
      while (bytes.hasRemaining()) {
        channel.write(bytes);
      }
      channel.force(false);
    } catch (IOException e) {
      // What was written of it must not be taken for an event later.
      channel.truncate(before);
      channel.position(before);
      throw e;
    }
  }

  private static JournalFailed failed(Path file, IOException e) {
    return new JournalFailed(Code.G607, file.toString(), String.valueOf(e.getMessage()));
  }

  /** Closes the file. */
  @Override
  public void close() {
    try {
      channel.close();
    } catch (IOException e) {
      throw failed(file, e);
    }
  }
}
