package org.gradus.history;

import java.io.Closeable;
import java.io.IOException;

/** Where the bytes of a journal are kept; a test can stand in for a disk that is full. */
interface Storage extends Closeable {

  /** Whether whoever opens the path now finds these bytes; not so once the file was deleted. */
  boolean isInPlace() throws IOException;

  /** How many bytes there are. */
  long length() throws IOException;

  /**
   * Adds bytes at the end. When this returns they are on the disk; when it throws, any part of them
   * may be there.
   */
  void append(byte[] bytes) throws IOException;

  /** Cuts off whatever lies beyond a length. */
  void cutTo(long length) throws IOException;
}
