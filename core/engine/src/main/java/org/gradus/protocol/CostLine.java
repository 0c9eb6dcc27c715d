package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import org.gradus.knowledge.CostEquation;
import org.gradus.rule.Condition;
import org.gradus.rule.Formula;

/**
 * A line of a protocol's list of oxygen costs, of which the first that applies is taken.
 *
 * @param equation the equation
 * @param when when it applies, if not always
 * @param uptake the equation, planned
 * @param range where its authors say it holds, if they do
 */
public record CostLine(
    CostEquation equation, Optional<Condition> when, Formula uptake, Optional<Condition> range) {
  public CostLine {
    requireNonNull(equation, "equation");
    requireNonNull(range, "range");
    requireNonNull(uptake, "uptake");
    requireNonNull(when, "when");
  }
}
