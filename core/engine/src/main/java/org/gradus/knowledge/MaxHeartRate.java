package org.gradus.knowledge;

import java.util.List;
import java.util.Optional;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Quantity;

/**
 * An equation that predicts the maximal heart rate.
 *
 * @param id the word by which protocols choose it: {@code general_1971}
 * @param title what people call it, in reports and explanations: {@code 220 - age}; the id where a
 *     file gives none
 * @param rate the equation
 * @param spread standard deviation between people of one age
 * @param onlyWhen for whom it was made, if not for everybody
 * @param source its citation
 * @param replaces ids it had in earlier versions of its file; no protocol may use them any more
 */
// Members that show types of closed packages are for the engine and its tools.
@SuppressWarnings("exports")
public record MaxHeartRate(
    String id,
    String title,
    Expression rate,
    Quantity spread,
    Optional<Expression> onlyWhen,
    Citation source,
    List<String> replaces) {

  public MaxHeartRate {
    replaces = List.copyOf(replaces);
  }
}
