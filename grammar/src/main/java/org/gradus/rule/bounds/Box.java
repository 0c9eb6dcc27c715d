package org.gradus.rule.bounds;

import java.util.List;
import java.util.function.BiFunction;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Layout;
import org.gradus.rule.check.Type;

/** A cell for each slot of a layout: a set of moments that a rule is looked at for all at once. */
public final class Box {

  private final Cell[] cells;

  private Box(Cell[] cells) {
    this.cells = cells;
  }

  /** A box with these cells, in the order of the slots. */
  public static Box of(Layout layout, BiFunction<Integer, Demand, Cell> cells) {
    List<Demand> demands = layout.demands();
    Cell[] made = new Cell[demands.size()];
    for (int i = 0; i < made.length; i++) {
      made[i] = cells.apply(i, demands.get(i));
    }
    return new Box(made);
  }

  /** A cell that may hold any value of a type, and does hold one. */
  public static Cell anything(Type type) {
    if (type instanceof Type.Measure) {
      return Cell.between(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);
    } else if (type instanceof Type.Choice choice) {
      long last = Cell.Options.bit(choice.options().size() - 1);
      return new Cell.Options(last | (last - 1), Presence.KNOWN);
    }
    return new Cell.Options(Cell.Options.NO | Cell.Options.YES, Presence.KNOWN);
  }

  /** The cell of a slot. */
  public Cell cell(int slot) {
    return cells[slot];
  }

  /** This box with another cell in one slot. */
  public Box with(int slot, Cell cell) {
    Cell[] changed = cells.clone();
    changed[slot] = cell;
    return new Box(changed);
  }
}
