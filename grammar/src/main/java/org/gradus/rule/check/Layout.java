package org.gradus.rule.check;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.unit.Kind;
import org.gradus.unit.Unit;

/**
 * Which demand has which slot, for all rules of one protocol, and how many terms there are whose
 * value is kept while a pass lasts.
 *
 * @param demands the demands in the order of their slots
 * @param terms the number of terms
 * @param units in which unit the values of a name are shown, where that is not the base unit
 */
public record Layout(List<Demand> demands, int terms, Map<String, Unit> units) {

  public Layout {
    demands = List.copyOf(demands);
    units = Map.copyOf(units);
  }

  /** The unit in which values of a kind are shown that belong to a demand. */
  public Unit unit(Demand demand, Kind kind) {
    return demand.subjects().size() == 1
        ? Optional.ofNullable(units.get(demand.subject()))
            .filter(unit -> unit.kind() == kind)
            .orElse(kind.base())
        : kind.base();
  }

  /** The number of slots. */
  public int size() {
    return demands.size();
  }

  /** Gives slots to demands while rules are checked; equal demands share one. */
  public static final class Builder {

    private final Map<Demand, Integer> slots = new LinkedHashMap<>();
    private final Map<String, Unit> units = new LinkedHashMap<>();
    private int terms;
    private int parts;

    /** Says in which unit the values of a name are shown. */
    public void show(String name, Unit unit) {
      units.put(name, unit);
    }

    /** The slot of a demand, a new one if it is the first of its kind. */
    public int slot(Demand demand) {
      Integer next = slots.size();
      Integer known = slots.putIfAbsent(demand, next);
      return known == null ? next : known;
    }

    /** The parts of all texts so far together with those of one more. */
    int partsWith(int further) {
      // The largest sum is kept: what is refused adds nothing that could run over.
      parts = Math.min(parts, TreeSize.MOST_PARTS_OF_ALL) + further;
      return parts;
    }

    /** The place in which a further term keeps its value. */
    int nextTerm() {
      return terms++;
    }

    /** The layout so far. */
    public Layout build() {
      return new Layout(new ArrayList<>(slots.keySet()), terms, units);
    }
  }
}
