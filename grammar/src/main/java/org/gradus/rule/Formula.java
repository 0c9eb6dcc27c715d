package org.gradus.rule;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.Collectors;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.rule.answer.Filled;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Cell;
import org.gradus.rule.bounds.NumberRange;
import org.gradus.rule.check.Checked;
import org.gradus.rule.check.Checker;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Layout;
import org.gradus.rule.check.PartMeaning;
import org.gradus.rule.check.Vocabulary;
import org.gradus.rule.plan.Filler;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.plan.NodeBuilder;
import org.gradus.rule.plan.NumberNode;
import org.gradus.rule.plan.Region;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Kind;
import org.gradus.unit.Type;

/**
 * A value ready to be computed. Immutable; it may be shared by any number of sessions and threads.
 */
// Members that show types of closed packages are for the engine and its tools.
@SuppressWarnings("exports")
public final class Formula {

  private final Checked checked;
  private final NumberNode root;
  private final Set<Demand> demands;
  private final List<Integer> slots;

  private Formula(Checked checked) {
    this.checked = checked;
    this.root = NodeBuilder.value(checked);
    this.demands =
        checked.slots().stream()
            .map(PartMeaning.Slot::demand)
            .collect(Collectors.toUnmodifiableSet());
    this.slots = checked.slots().stream().map(PartMeaning.Slot::index).distinct().sorted().toList();
  }

  /**
   * Checks and plans a value; notes what is wrong with it and gives nothing if anything is.
   *
   * @param kinds the kinds it may be of; the first is named when it is of another
   */
  public static Optional<Formula> of(
      Expression text,
      List<Kind> kinds,
      Vocabulary vocabulary,
      Layout.Builder layout,
      Problems problems) {
    return Checker.value(text, kinds, vocabulary, layout, problems).map(Formula::new);
  }

  static Formula of(Checked checked) {
    return new Formula(checked);
  }

  /** What it is made of. */
  public Anatomy anatomy() {
    return Anatomy.of(checked);
  }

  /** Where it stands. */
  public Span span() {
    return checked.root().span();
  }

  /** What it is a measure of. */
  public Kind kind() {
    return ((Type.Measure) checked.type()).kind();
  }

  /** Its value in the base unit of its kind; NaN when it is not known. */
  public double value(Frame frame) {
    return NumberNode.number(root, frame);
  }

  /**
   * Why it is unknown; empty when it is known. Closing all these gaps settles it, or leads to
   * further ones: of a definition with several alternatives only the one at issue is looked into.
   */
  public List<Gap> gaps(Frame frame) {
    return root.gaps(frame);
  }

  /** Its text with the numbers filled in. */
  public Filled filled(Frame frame) {
    return Filler.fill(checked, frame);
  }

  /** What it could come to anywhere in a box. */
  public Cell.Range range(Box box) {
    NumberRange range = Region.of(box).range(root);
    return new Cell.Range(range.low(), range.high(), range.presence());
  }

  /** Everything it asks for, also by way of definitions. */
  public Set<Demand> demands() {
    return demands;
  }

  /** The slots of everything it asks for, in their order. */
  public List<Integer> slots() {
    return slots;
  }

  /**
   * The place in which a frame keeps its value, if it is nothing but the name of a definition:
   * there the definition can be {@linkplain Frame#suppose supposed} to have another value.
   */
  public OptionalInt place() {
    boolean name = checked.root() instanceof Expression.Reference;
    return name && checked.meaningOf(checked.root()) instanceof PartMeaning.Use use
        ? OptionalInt.of(use.term().place())
        : OptionalInt.empty();
  }

  /**
   * Which of several equations gives its value, if it is nothing but the name of a definition that
   * is chosen from a list.
   */
  public Optional<String> chosen(Frame frame) {
    return root.chosen(frame);
  }

  /** The text it was made from. */
  public String text() {
    return checked.root().span().inOneLine();
  }
}
