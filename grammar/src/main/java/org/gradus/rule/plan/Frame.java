package org.gradus.rule.plan;

import org.gradus.rule.answer.Gap;
import org.gradus.rule.check.Layout;
import org.jspecify.annotations.Nullable;

/**
 * What is known at one moment: a value, or a gap, for each slot of a layout. It is filled once, by
 * hand or {@linkplain #onDemand on demand}, and read by any number of rules; not for use by two
 * threads at a time.
 */
public final class Frame {

  // Stands where otherwise the pass does: evaluated in every pass.
  private static final long SUPPOSED = -1;
  private static final Gap NOTHING_SAID = Gap.never("a slot", Gap.Cause.NEVER_TAKEN);
  private static final Content UNFILLED = Content.none(NOTHING_SAID);

  private final Layout layout;
  private final @Nullable Source source;
  // Null where nothing was put in yet. Contents are shared by copies: very many frames are made.
  private final @Nullable Content[] contents;
  private final double[] terms;
  // In which pass a term was evaluated last. Whatever is put into a slot begins a new pass.
  private final long[] termPasses;
  private long pass = 1;

  /**
   * What is in a slot.
   *
   * @param value NaN where it is not known
   * @param taken when it was read, in seconds since the start; NaN where it is no reading
   * @param gap why it is not known
   */
  private record Content(double value, double halfWidth, double taken, Gap gap) {

    private static Content known(double value, double halfWidth, double taken) {
      return new Content(value, halfWidth, taken, NOTHING_SAID);
    }

    private static Content none(Gap gap) {
      return new Content(Double.NaN, 0, Double.NaN, gap);
    }
  }

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
    this.contents = new Content[layout.size()];
    this.terms = new double[layout.terms()];
    this.termPasses = new long[layout.terms()];
  }

  private Frame(Frame other) {
    this.layout = other.layout;
    this.source = null;
    this.contents = other.contents.clone();
    this.terms = new double[layout.terms()];
    this.termPasses = new long[layout.terms()];
  }

  /** A frame whose slots are filled when they are first looked at: rules look at few of them. */
  public static Frame onDemand(Layout layout, Source source) {
    return new Frame(layout, source);
  }

  /**
   * A frame in which the same is known, to be changed without touching this one. All of it is
   * filled first, so that what is changed in the copy has no say in what else is known.
   */
  public Frame copy() {
    return new Frame(complete());
  }

  /** This frame once all its slots are filled. */
  public Frame complete() {
    for (int slot = 0; slot < contents.length; slot++) {
      content(slot);
    }
    return this;
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
    set(slot, value, halfWidth, Double.NaN);
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
      put(slot, Content.known(value, halfWidth, taken));
    } else {
      miss(slot, Gap.never(layout.demands().get(slot).subject(), Gap.Cause.UNDEFINED));
    }
  }

  /** Says that a slot is not known, and why. */
  public void miss(int slot, Gap gap) {
    put(slot, Content.none(gap));
  }

  // What was computed from the old value is forgotten. A slot that is filled on demand had none:
  // nobody has looked at it.
  private void put(int slot, Content content) {
    boolean seen = source == null || contents[slot] != null;
    contents[slot] = content;
    if (seen) {
      pass++;
    }
  }

  private Content content(int slot) {
    Content content = contents[slot];
    if (content == null && source != null) {
      source.fill(this, slot);
      content = contents[slot];
    }
    return content == null ? UNFILLED : content;
  }

  /** The value of a slot; NaN when it is not known. */
  public double value(int slot) {
    return content(slot).value;
  }

  /** How far the true value of a slot may be from the value. */
  public double halfWidth(int slot) {
    return content(slot).halfWidth;
  }

  /** When the reading in a slot was taken, in seconds since the start; NaN where it is none. */
  public double taken(int slot) {
    return content(slot).taken;
  }

  /** Whether a slot is known. */
  public boolean isKnown(int slot) {
    return !Double.isNaN(value(slot));
  }

  /** Why a slot is not known. */
  public Gap gap(int slot) {
    return content(slot).gap;
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
