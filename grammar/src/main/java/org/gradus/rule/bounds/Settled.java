package org.gradus.rule.bounds;

import java.util.BitSet;
import java.util.Optional;
import org.gradus.rule.check.Layout;
import org.gradus.rule.check.Term;
import org.jspecify.annotations.Nullable;

/**
 * What definitions come to that read nothing but slots of which nothing changes any more. It is
 * found once and kept for every box in which these slots have the same cells. May be shared by
 * threads.
 */
public final class Settled {

  /** Nothing is settled. */
  public static final Settled NOTHING = new Settled(new BitSet(), 0);

  private final BitSet slots;
  // Immutable records only: two threads that find the same at once do no harm.
  private final @Nullable Object[] found;

  private Settled(BitSet slots, int terms) {
    this.slots = slots;
    this.found = new Object[terms];
  }

  /**
   * Nothing is found yet.
   *
   * @param slots the slots of a layout that have the same cells in every box
   */
  public static Settled of(Layout layout, BitSet slots) {
    return new Settled((BitSet) slots.clone(), layout.terms());
  }

  /** Whether a definition reads nothing but settled slots. */
  public boolean holds(Term term) {
    return !slots.isEmpty() && term.readsOnly(slots);
  }

  /** What was found of a definition, if anything was. */
  public Optional<Object> found(Term term) {
    return Optional.ofNullable(found[term.place()]);
  }

  /** Keeps what was found of a definition. */
  public void find(Term term, Object value) {
    found[term.place()] = value;
  }
}
