package org.gradus.knowledge;

import java.util.List;
import java.util.Optional;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Quantity;

/**
 * The oxygen cost of a load, as a published equation states it.
 *
 * @param id the word by which protocols choose it: {@code walking}
 * @param loads the loads it is an equation of: {@code speed}, {@code grade}
 * @param uptake the equation
 * @param range where its authors say it holds, if they do
 * @param spread standard deviation between people, as a share of the result in % or as an uptake,
 *     if one is known
 * @param spreadOf the id of the equation whose spread that is, where no file states one of its own:
 *     the widest in % of the equations of the same loads
 * @param source its citation
 */
// Members that show types of closed packages are for the engine and its tools.
@SuppressWarnings("exports")
public record CostEquation(
    String id,
    List<String> loads,
    Expression uptake,
    Optional<Expression> range,
    Optional<Quantity> spread,
    Optional<String> spreadOf,
    Citation source) {

  public CostEquation {
    loads = List.copyOf(loads);
  }

  /** The same with the spread of another equation, since none is stated for this one. */
  public CostEquation withSpreadOf(CostEquation other) {
    return new CostEquation(
        id, loads, uptake, range, other.spread(), Optional.of(other.id()), source);
  }
}
