package org.gradus.trial;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import org.gradus.unit.Quantity;

/** How the heart rate is read in a trial. */
public sealed interface Counting {

  /** In words: {@code counted for 15 s}. */
  String words();

  /** As the protocol says: counted for the stretch its schedule gives, else read off a device. */
  record AsScheduled() implements Counting {
    @Override
    public String words() {
      return "read as the protocol says";
    }
  }

  /**
   * Counted.
   *
   * @param stretch for how long
   */
  record For(Duration stretch) implements Counting {
    public For {
      requireNonNull(stretch, "stretch");
    }

    @Override
    public String words() {
      return "counted for " + Quantity.plain(stretch.toMillis() / 1000.0) + " s";
    }
  }

  /** The true rate, to a hundredth of a beat and without noise: what no instrument shows. */
  record Exact() implements Counting {
    @Override
    public String words() {
      return "read exactly";
    }
  }
}
