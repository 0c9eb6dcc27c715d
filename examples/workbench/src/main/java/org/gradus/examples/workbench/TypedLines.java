package org.gradus.examples.workbench;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.Charset;
import java.util.Optional;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;

/** The lines that are typed, read on a thread of their own, since the clock must go on. */
final class TypedLines {

  /** The longest line that is taken; of a longer one only the beginning is kept. */
  static final int LONGEST = 2_000;

  // More without a line end is no text: it would be read for ever.
  private static final int ENDLESS = 1_000_000;
  private static final int WAITING = 1_000;

  private final BlockingQueue<Next> typed = new ArrayBlockingQueue<>(WAITING);

  private TypedLines() {}

  /** What came within a time. */
  sealed interface Next {}

  /**
   * A line.
   *
   * @param text without its end
   */
  record Line(String text) implements Next {}

  /**
   * No line will come any more.
   *
   * @param problem what is wrong with the input, if that is why
   */
  record End(Optional<String> problem) implements Next {}

  /** Nothing yet. */
  record Nothing() implements Next {}

  static TypedLines of(InputStream in, Charset charset) {
    TypedLines lines = new TypedLines();
    Thread thread = new Thread(() -> lines.read(in, charset), "terminal");
    thread.setDaemon(true);
    thread.start();
    return lines;
  }

  /** The next line, as soon as there is one. */
  Next next(long time, TimeUnit unit) {
    try {
      Next next = typed.poll(time, unit);
      return next == null ? new Nothing() : next;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return new End(Optional.empty());
    }
  }

  private void read(InputStream in, Charset charset) {
    try {
      put(new End(readAll(new BufferedReader(new InputStreamReader(in, charset)))));
    } catch (IOException | UncheckedIOException e) {
      put(new End(Optional.of("the input cannot be read: " + e.getMessage())));
    }
  }

  private Optional<String> readAll(Reader in) throws IOException {
    StringBuilder line = new StringBuilder();
    int length = 0;
    for (int c = in.read(); c >= 0; c = in.read()) {
      if (c == '\n') {
        put(new Line(line.toString()));
        line.setLength(0);
        length = 0;
      } else if (++length <= LONGEST + 1) {
        line.append((char) c);
      } else if (length > ENDLESS) {
        return Optional.of("the input is not lines of text");
      }
    }
    if (length > 0) {
      put(new Line(line.toString()));
    }
    return Optional.empty();
  }

  private void put(Next next) {
    try {
      typed.put(next);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
