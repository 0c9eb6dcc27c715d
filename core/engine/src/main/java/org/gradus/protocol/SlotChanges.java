package org.gradus.protocol;

import java.util.BitSet;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.IntConsumer;
import org.gradus.rule.check.Layout;

/**
 * Which slots can have another value after something has happened; the others need not be looked up
 * again. Immutable.
 */
public final class SlotChanges {

  private final SlotSet any = new SlotSet();
  private final SlotSet byTime = new SlotSet();
  private final SlotSet byLook = new SlotSet();
  private final SlotSet byAct = new SlotSet();
  private final BitSet settled = new BitSet();
  private final Map<String, SlotSet> byReading = new HashMap<>();
  // A reading that has a name of its own may be one of any signal.
  private final SlotSet byEveryReading = new SlotSet();

  /** Some slots. */
  public static final class SlotSet {

    private final BitSet slots = new BitSet();

    private SlotSet() {}

    /** Each of them, in order. */
    public void each(IntConsumer slot) {
      for (int next = slots.nextSetBit(0); next >= 0; next = slots.nextSetBit(next + 1)) {
        slot.accept(next);
      }
    }
  }

  /**
   * Finds them out.
   *
   * @param layout the slots
   * @param facts what each slot of a value stands for
   */
  SlotChanges(Layout layout, List<Optional<Fact>> facts) {
    for (int slot = 0; slot < layout.size(); slot++) {
      any.slots.set(slot);
      switch (layout.demands().get(slot).aspect()) {
        case LINE_MEAN_X, LINE_MEAN_Y, LINE_SLOPE -> {
          // Drawn when a result is worked out, and never in a test.
        }
        case EVER, COMPLETED -> byAct.slots.set(slot);
        case EARLIER, AVERAGE, HIGHEST, LOWEST, COUNT -> moves(slot);
        case VALUE -> {
          if (facts.get(slot).isPresent()) {
            value(slot, facts.get(slot).get());
          }
        }
      }
    }
  }

  private void moves(int slot) {
    List.of(byTime, byEveryReading, byLook, byAct).forEach(slots -> slots.slots.set(slot));
  }

  private void value(int slot, Fact fact) {
    if (fact instanceof Fact.Clock || fact instanceof Fact.Load) {
      moves(slot);
    } else if (fact instanceof Fact.Read read) {
      isRead(slot, read.signal());
    } else if (fact instanceof Fact.Previous previous) {
      isRead(slot, previous.name());
    } else if (fact instanceof Fact.Named) {
      List.of(byEveryReading, byLook, byAct).forEach(slots -> slots.slots.set(slot));
    } else if (fact instanceof Fact.Reported || fact instanceof Fact.AtFinish) {
      byAct.slots.set(slot);
    } else if (isSettled(fact)) {
      settled.set(slot);
    } else {
      throw new IllegalStateException("not said when it changes: " + fact);
    }
  }

  // A capacity is worked out when nothing is decided any more.
  private static boolean isSettled(Fact fact) {
    return fact instanceof Fact.Attribute
        || fact instanceof Fact.Answer
        || fact instanceof Fact.Baseline
        || fact instanceof Fact.Result;
  }

  private void isRead(int slot, String signal) {
    byReading.computeIfAbsent(signal, name -> new SlotSet()).slots.set(slot);
    byLook.slots.set(slot);
    byAct.slots.set(slot);
  }

  /** All slots: nothing is known yet. */
  public SlotSet any() {
    return any;
  }

  /** Time has passed. */
  public SlotSet byTime() {
    return byTime;
  }

  /** Time has passed and some signals were read while a stage lasts. */
  public SlotSet byReading(Collection<String> signals) {
    SlotSet found = new SlotSet();
    found.slots.or(byEveryReading.slots);
    for (String signal : signals) {
      Optional.ofNullable(byReading.get(signal)).ifPresent(slots -> found.slots.or(slots.slots));
    }
    return found;
  }

  /** The same test is looked at at another of its moments. */
  public SlotSet byLook() {
    return byLook;
  }

  /** Something was done or reported once the test has begun. */
  public SlotSet byAct() {
    return byAct;
  }

  /** The slots that have the same value from the start of the first stage on. */
  public BitSet settled() {
    return (BitSet) settled.clone();
  }
}
