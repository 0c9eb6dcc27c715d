package org.gradus.protocol;

import java.util.List;
import java.util.Optional;
import org.gradus.knowledge.Citation;
import org.gradus.knowledge.ModelError;
import org.gradus.rule.Condition;
import org.gradus.rule.Formula;
import org.gradus.rule.syntax.Selection;
import org.gradus.unit.Quantity;

/**
 * A way to work out the aerobic capacity.
 *
 * @param id its name
 * @param from which stages it is made from
 * @param term the condition the end of a stage must fulfil to be selected, if any
 * @param onlyWhen when it applies, if not always
 * @param vo2max the formula
 * @param leastSpan how far apart the stages of a line must lie at least, along its x
 * @param model how far its model may be off although all it rests on is right, if a file says so
 * @param error its published error, if there is one
 * @param source where the method comes from
 * @param assumes what it takes for granted, in a sentence; or empty
 * @param cautions what to know about it
 */
// Members that show types of closed packages are for the engine and its tools.
@SuppressWarnings("exports")
public record EstimateLine(
    String id,
    Selection from,
    Optional<Condition> term,
    Optional<Condition> onlyWhen,
    Formula vo2max,
    Optional<Formula> leastSpan,
    Optional<ModelError> model,
    Optional<PublishedError> error,
    Citation source,
    String assumes,
    List<String> cautions) {

  /**
   * The error a publication found.
   *
   * @param sd the standard error of the estimate
   * @param covers what it is an error of
   * @param source who found it
   * @param note in whom, or empty
   */
  public record PublishedError(Quantity sd, Covers covers, Citation source, String note) {}

  /** What a published error is an error of. */
  public enum Covers {
    /** The whole way from readings to answer. */
    METHOD,
    /** Only the inputs of the formula. */
    INPUTS
  }

  public EstimateLine {
    cautions = List.copyOf(cautions);
  }
}
