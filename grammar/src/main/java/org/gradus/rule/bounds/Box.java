package org.gradus.rule.bounds;

import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Layout;
import org.gradus.unit.Type;
import org.jspecify.annotations.Nullable;

/** A cell for each slot of a layout: a set of moments that a rule is looked at for all at once. */
public final class Box {

  private final Layout layout;
  private final Cells source;
  // Null where nobody has looked yet.
  private final @Nullable Cell[] cells;

  private Box(Layout layout, Cells source, @Nullable Cell[] cells) {
    this.layout = layout;
    this.source = source;
    this.cells = cells;
  }

  /** Makes the cells of a box. */
  @FunctionalInterface
  public interface Cells {

    /** The cell of a slot, the same however often it is asked. */
    Cell of(int slot, Demand demand);
  }

  /** A box with these cells, in the order of the slots. */
  public static Box of(Layout layout, Cells cells) {
    Box box = onDemand(layout, cells);
    for (int slot = 0; slot < box.cells.length; slot++) {
      box.cell(slot);
    }
    return box;
  }

  /**
   * A box whose cells are made when they are first looked at: a rule looks at few of them.
   *
   * @param cells makes the cell of a slot
   */
  public static Box onDemand(Layout layout, Cells cells) {
    return new Box(layout, cells, new Cell[layout.size()]);
  }

  /** A cell that may hold any value of a type, and does hold one. */
  public static Cell anything(Type type) {
    return type.match(
        measure -> Cell.between(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY),
        condition -> new Cell.Options(Cell.Options.NO | Cell.Options.YES, Presence.KNOWN),
        choice -> {
          long last = Cell.Options.bit(choice.options().size() - 1);
          return new Cell.Options(last | (last - 1), Presence.KNOWN);
        });
  }

  /** The cell of a slot. */
  public Cell cell(int slot) {
    Cell cell = cells[slot];
    if (cell == null) {
      cell = source.of(slot, layout.demands().get(slot));
      cells[slot] = cell;
    }
    return cell;
  }

  /** This box with another cell in one slot. */
  public Box with(int slot, Cell cell) {
    if (cell.equals(cell(slot))) {
      return this;
    }
    Box changed = new Box(layout, source, cells.clone());
    changed.cells[slot] = cell;
    return changed;
  }
}
