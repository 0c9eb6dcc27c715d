package org.gradus.history;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Optional;

/**
 * A file on a disk. It is written without a channel on purpose: an interrupt closes a channel in
 * the middle of a write, and nothing interrupts this.
 */
final class LocalFile implements Storage {

  private final Path path;
  private final RandomAccessFile file;
  // Empty where the file system has no such key; there an open file cannot be deleted.
  private final Optional<Object> key;

  private LocalFile(Path path) throws IOException {
    this.path = path;
    this.file = new RandomAccessFile(path.toFile(), "rw");
    this.key = key(path);
  }

  private static Optional<Object> key(Path path) throws IOException {
    return Optional.ofNullable(Files.readAttributes(path, BasicFileAttributes.class).fileKey());
  }

  /**
   * A new, empty file that only its owner can read, where the file system knows owners.
   *
   * @throws java.nio.file.FileAlreadyExistsException when there is one, unless it is empty: a
   *     process that ended while it created a journal leaves such a file
   */
  static LocalFile create(Path path) throws IOException {
    if (Files.isRegularFile(path, LinkOption.NOFOLLOW_LINKS) && Files.size(path) == 0) {
      Files.delete(path);
    }
    Files.createFile(path, ownerOnly(path));
    return new LocalFile(path);
  }

  /** A file that exists. */
  static LocalFile open(Path path) throws IOException {
    return new LocalFile(path);
  }

  /** The attributes of a file that only its owner can read. */
  static FileAttribute<?>[] ownerOnly(Path path) {
    boolean posix = path.getFileSystem().supportedFileAttributeViews().contains("posix");
    return posix
        ? new FileAttribute<?>[] {
          PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------"))
        }
        : new FileAttribute<?>[0];
  }

  @Override
  public boolean isInPlace() throws IOException {
    try {
      return key(path).equals(key);
    } catch (NoSuchFileException gone) {
      return false;
    }
  }

  @Override
  public long length() throws IOException {
    return file.length();
  }

  @Override
  public void append(byte[] bytes) throws IOException {
    file.seek(file.length());
    file.write(bytes);
    file.getFD().sync();
  }

  @Override
  public void cutTo(long length) throws IOException {
    file.setLength(length);
  }

  @Override
  public void close() throws IOException {
    file.close();
  }
}
