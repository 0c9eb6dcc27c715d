package org.gradus.rule.random;

import java.util.Map;
import java.util.Random;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Cell;
import org.gradus.rule.bounds.Presence;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Layout;
import org.gradus.unit.Type;

/** Random boxes and the readings inside them. */
final class Boxes {

  private Boxes() {}

  static Box random(Layout layout, Random random) {
    boolean mayMiss = random.nextBoolean();
    boolean wide = random.nextInt(3) == 0;
    return Box.of(
        layout,
        (slot, demand) ->
            cell(demand, wide, random)
                .with(
                    switch (mayMiss ? random.nextInt(6) : 2) {
                      case 0 -> Presence.UNKNOWN;
                      case 1 -> Presence.MAYBE;
                      default -> Presence.KNOWN;
                    }));
  }

  private static Cell cell(Demand demand, boolean wide, Random random) {
    if (wide || random.nextInt(8) == 0) {
      return Box.anything(demand.type());
    }
    double first = Readings.value(demand, random);
    if (!(demand.type() instanceof Type.Measure)) {
      long other = Cell.Options.bit((int) Readings.value(demand, random));
      return new Cell.Options(Cell.Options.bit((int) first) | other, Presence.KNOWN);
    }
    return switch (random.nextInt(4)) {
      case 0 -> Cell.between(first, first);
      case 1 -> Cell.between(first - 2, first + 2);
      case 2 -> Cell.between(Double.NEGATIVE_INFINITY, first);
      default -> {
        double second = Readings.value(demand, random);
        yield Cell.between(Math.min(first, second), Math.max(first, second));
      }
    };
  }

  static Readings inside(Box box, Layout layout, Random random) {
    Readings readings = new Readings(layout, Map.of());
    for (int slot = 0; slot < layout.size(); slot++) {
      Cell cell = box.cell(slot);
      boolean there =
          cell.presence() == Presence.KNOWN
              || (cell.presence() == Presence.MAYBE && random.nextBoolean());
      if (there) {
        readings = readings.with(slot, point(cell, layout.demands().get(slot), random));
      }
    }
    return readings;
  }

  private static double point(Cell cell, Demand demand, Random random) {
    if (cell instanceof Cell.Options options) {
      double option = Readings.value(demand, random);
      while ((options.options() & Cell.Options.bit((int) option)) == 0) {
        option = Readings.value(demand, random);
      }
      return option;
    }
    Cell.Range range = (Cell.Range) cell;
    double low = Math.max(range.low(), -1e15);
    double high = Math.min(range.high(), 1e15);
    double point =
        switch (random.nextInt(6)) {
          case 0 -> low;
          case 1 -> high;
          case 2 -> low + random.nextDouble() * (high - low);
          // Just within, or just beyond, what counts as equal to a number that texts like to use.
          case 3 -> Readings.value(demand, random) * (1 + (random.nextInt(13) - 6) * 0.25e-9);
          default -> Readings.value(demand, random);
        };
    return Math.max(low, Math.min(high, point));
  }

  static boolean contains(Box box, Readings readings) {
    for (int slot = 0; slot < readings.layout().size(); slot++) {
      Cell cell = box.cell(slot);
      boolean inside =
          readings.has(slot)
              ? cell.presence() != Presence.UNKNOWN && holds(cell, readings.value(slot))
              : cell.presence() != Presence.KNOWN;
      if (!inside) {
        return false;
      }
    }
    return true;
  }

  private static boolean holds(Cell cell, double value) {
    return cell instanceof Cell.Range range
        ? range.low() <= value && value <= range.high()
        : (((Cell.Options) cell).options() & Cell.Options.bit((int) value)) != 0;
  }
}
