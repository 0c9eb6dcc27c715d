package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;
import org.gradus.knowledge.Citation;
import org.gradus.knowledge.ModelError;
import org.gradus.knowledge.PlausibleRange;
import org.gradus.rule.Condition;
import org.gradus.rule.Formula;
import org.gradus.rule.syntax.Selection;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/**
 * A way to work out the aerobic capacity, or another result of a test.
 *
 * @param id its name
 * @param from which stages it is made from
 * @param term the condition the end of a stage must fulfil to be selected, if any
 * @param onlyWhen when it applies, if not always
 * @param formula the formula
 * @param leastSpan how far apart the stages of a line must lie at least, along its x
 * @param model how far its model may be off although all it rests on is right, if a file says so
 * @param error its published error, if there is one
 * @param source where the method comes from
 * @param assumes what it takes for granted, in a sentence; or empty
 * @param secondLook whether it is shown beside the headline and never in its place
 * @param cautions what to know about it
 * @param shown how a result that is no aerobic capacity is shown and judged; empty for a capacity
 */
// Members that show types of closed packages are for the engine and its tools.
@SuppressWarnings("exports")
public record EstimateLine(
    String id,
    Selection from,
    Optional<Condition> term,
    Optional<Condition> onlyWhen,
    Formula formula,
    Optional<Formula> leastSpan,
    Optional<ModelError> model,
    Optional<PublishedError> error,
    Citation source,
    String assumes,
    boolean secondLook,
    List<String> cautions,
    Optional<Shown> shown) {

  /**
   * How a result is shown and judged.
   *
   * @param title what reports call it
   * @param unit the unit in which it is shown, which gives its kind
   * @param reference what is expected of such a person, where the file says so
   * @param plausible the values it can have, where a file says so
   */
  public record Shown(
      String title, Unit unit, Optional<Reference> reference, Optional<PlausibleRange> plausible) {
    public Shown {
      requireNonNull(plausible, "plausible");
      requireNonNull(reference, "reference");
      requireNonNull(title, "title");
      requireNonNull(unit, "unit");
    }
  }

  /**
   * What a publication expects of such a person.
   *
   * @param value the expected value
   * @param lower the lower limit of what is usual, if it is given
   * @param upper the upper limit of what is usual, if it is given
   * @param source who found it
   */
  public record Reference(
      Formula value, Optional<Formula> lower, Optional<Formula> upper, Citation source) {
    public Reference {
      requireNonNull(lower, "lower");
      requireNonNull(source, "source");
      requireNonNull(upper, "upper");
      requireNonNull(value, "value");
    }
  }

  /**
   * The error a publication found.
   *
   * @param sd the standard error of the estimate
   * @param covers what it is an error of
   * @param source who found it
   * @param note in whom, or empty
   */
  public record PublishedError(Quantity sd, Covers covers, Citation source, String note) {
    public PublishedError {
      requireNonNull(covers, "covers");
      requireNonNull(note, "note");
      requireNonNull(sd, "sd");
      requireNonNull(source, "source");
    }
  }

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
