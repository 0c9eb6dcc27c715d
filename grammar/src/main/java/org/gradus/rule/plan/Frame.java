package org.gradus.rule.plan;

import java.util.function.IntPredicate;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.check.Layout;
import org.jspecify.annotations.Nullable;

/**
 * What is known at one moment: a value, or a gap, for each slot of a layout. It is filled once, by
 * hand or {@linkplain #onDemand on demand}, and read by any number of rules; not for use by two
 * threads at a time.
 */
public final class Frame {

  // The places of a half width and a time after the value they belong to.
  private static final int HALF = 1;
  private static final int TAKEN = 2;
  // Stands where otherwise the pass does: evaluated in every pass.
  private static final long SUPPOSED = -1;
  private static final Gap UNFILLED = Gap.never("a slot", Gap.Cause.NEVER_TAKEN);

  private final Layout layout;
  private final @Nullable Source source;
  // Value, half width and time of each slot side by side: very many frames are made.
  private final double[] numbers;
  private final @Nullable Gap[] gaps;
  private final double[] terms;
  // In which pass a term was evaluated last. Whatever is put into a slot begins a new pass.
  private final long[] termPasses;
  private long pass = 1;

  /** Fills the slots of a frame that is filled on demand. */
  @FunctionalInterface
  public interface Source {

    /**
     * Fills a slot, or says why it is not known; the same however often it is asked. It may look at
     * other slots of the frame, as long as that does not lead back to this one, and may fill others
     * too.
     */
    void fill(Frame frame, int slot);
  }

  /** A frame in which nothing is known yet. */
  public Frame(Layout layout) {
    this(layout, null);
  }

  private Frame(Layout layout, @Nullable Source source) {
    this.layout = layout;
    this.source = source;
    this.numbers = new double[3 * layout.size()];
    this.gaps = new Gap[layout.size()];
    this.terms = new double[layout.terms()];
    this.termPasses = new long[layout.terms()];
    for (int at = 0; at < numbers.length; at += 3) {
      numbers[at] = Double.NaN;
      numbers[at + TAKEN] = Double.NaN;
    }
  }

  private Frame(Frame other, @Nullable Source source) {
    this.layout = other.layout;
    this.source = source;
    this.numbers = other.numbers.clone();
    this.gaps = other.gaps.clone();
    this.terms = new double[layout.terms()];
    this.termPasses = new long[layout.terms()];
  }

  /** A frame whose slots are filled when they are first looked at: rules look at few of them. */
  public static Frame onDemand(Layout layout, Source source) {
    return new Frame(layout, source);
  }

  /**
   * A frame in which the same is known, and whose other slots are filled when they are first looked
   * at. Several threads may call this at a time, as long as nobody fills this frame.
   */
  public Frame onDemand(Source others) {
    return new Frame(this, others);
  }

  /**
   * A frame in which the same is known, to be changed without touching this one. All of it is
   * filled first, so that what is changed in the copy has no say in what else is known.
   */
  public Frame copy() {
    return new Frame(complete(), null);
  }

  /** This frame once all its slots are filled. */
  public Frame complete() {
    for (int slot = 0; slot < layout.size(); slot++) {
      look(slot);
    }
    return this;
  }

  /** A frame in which the same is known of some slots, and nothing of the others. */
  public Frame only(IntPredicate slots) {
    Frame some = new Frame(layout);
    for (int slot = 0; slot < layout.size(); slot++) {
      if (slots.test(slot)) {
        look(slot);
        some.put(slot, value(slot), halfWidth(slot), taken(slot), gaps[slot]);
      }
    }
    return some;
  }

  /** What the slots mean. */
  public Layout layout() {
    return layout;
  }

  /**
   * Fills a slot. Something that came out infinite or not a number is no value and leaves a gap.
   *
   * @param slot which
   * @param value in the base unit of its kind; for a condition 1 or 0, for a choice the index of
   *     the option
   * @param halfWidth how far the true value may be from it, half a step of the reading
   */
  public void set(int slot, double value, double halfWidth) {
    if (Double.isFinite(value) && Double.isFinite(halfWidth)) {
      put(slot, value, halfWidth, Double.NaN, null);
    } else {
      miss(slot, Gap.never(layout.demands().get(slot).subject(), Gap.Cause.UNDEFINED));
    }
  }

  /**
   * Fills a slot with a reading.
   *
   * @param slot which
   * @param value in the base unit of its kind
   * @param halfWidth how far the true value may be from it
   * @param taken when it was taken, in seconds since the start
   */
  public void set(int slot, double value, double halfWidth, double taken) {
    if (Double.isFinite(value) && Double.isFinite(halfWidth)) {
      put(slot, value, halfWidth, taken, null);
    } else {
      set(slot, value, halfWidth);
    }
  }

  /** Says that a slot is not known, and why. */
  public void miss(int slot, Gap gap) {
    put(slot, Double.NaN, 0, Double.NaN, gap);
  }

  // What was computed from the old value is forgotten; nothing was where nobody has looked yet.
  private void put(int slot, double value, double halfWidth, double taken, @Nullable Gap gap) {
    boolean seen = !isOpen(slot);
    int at = 3 * slot;
    numbers[at] = value;
    numbers[at + HALF] = halfWidth;
    numbers[at + TAKEN] = taken;
    gaps[slot] = gap;
    if (seen) {
      pass++;
    }
  }

  // Whether a slot waits to be filled on demand.
  private boolean isOpen(int slot) {
    return source != null && gaps[slot] == null && Double.isNaN(numbers[3 * slot]);
  }

  private void look(int slot) {
    if (source != null && isOpen(slot)) {
      source.fill(this, slot);
    }
  }

  /** The value of a slot; NaN when it is not known. */
  public double value(int slot) {
    look(slot);
    return numbers[3 * slot];
  }

  /** How far the true value of a slot may be from the value. */
  public double halfWidth(int slot) {
    look(slot);
    return numbers[3 * slot + HALF];
  }

  /** When the reading in a slot was taken, in seconds since the start; NaN where it is none. */
  public double taken(int slot) {
    look(slot);
    return numbers[3 * slot + TAKEN];
  }

  /** Whether a slot is known. */
  public boolean isKnown(int slot) {
    return !Double.isNaN(value(slot));
  }

  /** Why a slot is not known. */
  public Gap gap(int slot) {
    look(slot);
    Gap gap = gaps[slot];
    return gap == null ? UNFILLED : gap;
  }

  /**
   * Takes a definition to have another value than it comes to, whatever is put into the slots.
   * Copies know nothing of it.
   *
   * @param place the place of its term
   * @param value in the base unit of its kind
   */
  public void suppose(int place, double value) {
    pass++;
    terms[place] = value;
    termPasses[place] = SUPPOSED;
  }

  // A term is evaluated at most once per pass. A truth is kept as the number it is planned as.
  boolean hasTerm(int place) {
    return termPasses[place] == pass || termPasses[place] == SUPPOSED;
  }

  double term(int place) {
    return terms[place];
  }

  double keepTerm(int place, double value) {
    terms[place] = value;
    termPasses[place] = pass;
    return value;
  }
}
