package org.gradus.examples.benchmarks;

import java.lang.management.ManagementFactory;
import java.lang.management.MemoryMXBean;
import java.util.ArrayList;
import java.util.List;
import org.gradus.bundled.Bundled;
import org.gradus.protocol.Protocol;
import org.gradus.session.Session;

/**
 * Keeps a hundred thousand live sessions of the standard walk and prints the heap that each takes.
 * In a heap that is too small for them it ends with an error.
 */
final class LiveSessions {

  static final int SESSIONS = 100_000;

  private LiveSessions() {}

  /** Prints bytes for each session. */
  public static void main(String[] arguments) {
    Protocol walk = Bundled.library().protocol("graded-walk-standard");
    StandardWalk.live(walk);
    long before = used();
    List<Session> sessions = new ArrayList<>(SESSIONS);
    for (int i = 0; i < SESSIONS; i++) {
      sessions.add(StandardWalk.live(walk));
    }
    long each = (used() - before) / SESSIONS;
    // Asked once more, so that none of them could be thrown away before.
    long live = sessions.stream().filter(session -> !session.events().isEmpty()).count();
    System.out.println(live == SESSIONS ? each : -1);
  }

  private static long used() {
    MemoryMXBean memory = ManagementFactory.getMemoryMXBean();
    for (int i = 0; i < 3; i++) {
      memory.gc();
    }
    return memory.getHeapMemoryUsage().getUsed();
  }
}
