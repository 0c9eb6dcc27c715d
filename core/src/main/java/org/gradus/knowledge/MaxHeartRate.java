package org.gradus.knowledge;

import java.util.Optional;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Quantity;

/**
 * An equation that predicts the maximal heart rate.
 *
 * @param id the word by which protocols choose it: {@code general_1971}
 * @param rate the equation
 * @param spread standard deviation between people of one age
 * @param onlyWhen for whom it was made, if not for everybody
 * @param source its citation
 */
public record MaxHeartRate(
    String id, Expression rate, Quantity spread, Optional<Expression> onlyWhen, Citation source) {}
