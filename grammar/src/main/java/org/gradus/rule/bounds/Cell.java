package org.gradus.rule.bounds;

/** What is known of a slot before its value is. */
public sealed interface Cell {

  /** Whether the value is there. */
  Presence presence();

  /** The same with another presence. */
  Cell with(Presence presence);

  /**
   * A number between two ends, both included, in the base unit of its kind. What never has a value
   * has its lower end above its upper end.
   *
   * @param low the lower end; may be minus infinity, which stands for any reading: -1e15
   * @param high the upper end; may be infinity, which stands for any reading: 1e15
   * @param presence whether it is there
   */
  record Range(double low, double high, Presence presence) implements Cell {
    @Override
    public Range with(Presence other) {
      return new Range(low, high, other);
    }
  }

  /**
   * One of some options; bit i stands for option i, and the last bit for all options from the 64th
   * on. A condition has the options no (0) and yes (1).
   *
   * @param options the set of options it can be
   * @param presence whether it is there
   */
  record Options(long options, Presence presence) implements Cell {
    /** The option no of a condition. */
    public static final long NO = 1;

    /** The option yes of a condition. */
    public static final long YES = 2;

    private static final long LAST = 1L << (Long.SIZE - 1);

    /** The bit that stands for an option. */
    public static long bit(int option) {
      return 1L << Math.min(option, Long.SIZE - 1);
    }

    /** Whether a bit stands for more than one of so many options. */
    public static boolean isShared(long bit, int count) {
      return bit == LAST && count > Long.SIZE;
    }

    /** Whether it could be one of the wanted options, and whether it could be another. */
    public Outcomes isOneOf(long wanted) {
      boolean known = presence.canBeKnown();
      return new Outcomes(
          known && (options & wanted) != 0,
          known && (options & ~wanted) != 0,
          presence.canBeUnknown());
    }

    /** What is left of it when it is there and is one of the wanted options, or none of them. */
    public Options where(long wanted, boolean isOne) {
      return new Options(isOne ? options & wanted : options & ~wanted, Presence.KNOWN);
    }

    @Override
    public Options with(Presence other) {
      return new Options(options, other);
    }
  }

  /** A number that is there and between two ends. */
  static Cell between(double low, double high) {
    return new Range(low, high, Presence.KNOWN);
  }

  /** A condition that is there. */
  static Cell condition(boolean answer) {
    return new Options(answer ? Options.YES : Options.NO, Presence.KNOWN);
  }
}
