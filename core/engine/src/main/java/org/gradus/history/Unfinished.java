package org.gradus.history;

import java.io.Closeable;
import java.io.IOException;
import java.util.ArrayDeque;
import java.util.Deque;

/** What was opened on the way to something; closed again, last first, unless that is finished. */
final class Unfinished implements Closeable {

  private final Deque<Closeable> opened = new ArrayDeque<>();

  /** Remembers what is open by now. */
  <T extends Closeable> T also(T resource) {
    opened.push(resource);
    return resource;
  }

  /** Leaves everything open: it belongs to this now. */
  <T> T finished(T whole) {
    opened.clear();
    return whole;
  }

  @Override
  public void close() throws IOException {
    if (!opened.isEmpty()) {
      try {
        opened.pop().close();
      } finally {
        close();
      }
    }
  }
}
