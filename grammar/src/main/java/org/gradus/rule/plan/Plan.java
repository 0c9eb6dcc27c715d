package org.gradus.rule.plan;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.gradus.diagnostic.Span;
import org.gradus.rule.check.Checked;
import org.jspecify.annotations.Nullable;

/** A planned condition or value, ready to be evaluated on any frame of its layout. */
public final class Plan {

  private final Checked checked;
  private final Planned root;
  // The root once more, by its type: to find out at every evaluation which it is takes longer than
  // to evaluate a simple rule.
  private final @Nullable TruthNode condition;
  private final @Nullable NumberNode number;

  private Plan(Checked checked, Planned root) {
    this.checked = checked;
    this.root = root;
    this.condition = root instanceof TruthNode node ? node : null;
    this.number = root instanceof NumberNode node ? node : null;
  }

  /** Plans a checked tree. */
  public static Plan of(Checked checked) {
    return new Plan(checked, Planner.plan(checked));
  }

  /** What was planned. */
  public Checked checked() {
    return checked;
  }

  /** The answer of a condition. */
  public Truth truth(Frame frame) {
    return Truth.of(TruthNode.answer(Objects.requireNonNull(condition), frame));
  }

  /** The number of a value in the base unit of its kind; NaN when it is not known. */
  public double value(Frame frame) {
    return NumberNode.number(Objects.requireNonNull(number), frame);
  }

  /**
   * Why it is unknown; empty when it is known. Closing all these gaps settles it, or leads to
   * further ones: of a definition with several alternatives only the one at issue is looked into.
   */
  public List<Gap> gaps(Frame frame) {
    return Gaps.of(root, frame);
  }

  /** Its text with the numbers of a frame filled in. */
  public Filled filled(Frame frame) {
    return Filler.fill(frame, checked);
  }

  /** What the alternative is called that gives its value, if it is chosen from a list. */
  public Optional<String> chosen(Frame frame) {
    return number instanceof NumberNode.Definition definition
        ? Optional.ofNullable(definition.alternatives().chosen(frame))
            .map(Alternatives.Line::label)
            .filter(label -> !label.isEmpty())
        : Optional.empty();
  }

  /**
   * Its text with the value of every part under it.
   *
   * @param whole the text to show, of which this is a part
   * @param now in seconds since the start; the age of a reading is counted up to it
   */
  public Diagram diagram(Frame frame, Span whole, double now) {
    return new Drawer(frame, now).draw(whole, checked);
  }
}
