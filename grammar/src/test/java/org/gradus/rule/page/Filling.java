package org.gradus.rule.page;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.rule.Condition;
import org.gradus.rule.Formula;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.answer.Gap.Cause;
import org.gradus.rule.check.Checker;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.check.Layout;
import org.gradus.rule.check.Vocabulary;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.RuleText;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;

/** Puts what is given into a frame. What is not given was never taken; signs were not reported. */
final class Filling {

  /** How far the readings of a stage may be off in the examples, in beats per minute. */
  private static final double STAGE_SD = 2.5;

  private final Vocabulary vocabulary;
  private final Layout.Builder layout;
  private final Map<Demand, Given> values = new HashMap<>();
  private final Optional<Given.Line> line;

  Filling(
      Vocabulary vocabulary,
      Layout.Builder layout,
      Map<String, Given> givens,
      Optional<Given.Line> line) {
    this.vocabulary = vocabulary;
    this.layout = layout;
    this.line = line;
    givens.forEach((name, given) -> values.put(demand(name), given));
  }

  /** What a name or call asks for. */
  private Demand demand(String text) {
    Problems problems = new Problems();
    Expression tree =
        RuleText.expression(Span.all("given", text), problems)
            .orElseThrow(() -> new AssertionError(problems.sorted()));
    Type type =
        Checker.any(tree, vocabulary, layout, problems)
            .orElseThrow(() -> new AssertionError(problems.sorted()))
            .type();
    if (type instanceof Type.Choice) {
      return Demand.value(text, type);
    }
    var demands =
        type.equals(Type.CONDITION)
            ? Condition.of(tree, vocabulary, layout, problems).orElseThrow().demands()
            : Formula.of(tree, List.of(Kind.values()), vocabulary, layout, problems)
                .orElseThrow()
                .demands();
    return demands.stream()
        .filter(demand -> text.indexOf('(') < 0 || demand.aspect() != Aspect.VALUE)
        .findFirst()
        .orElseThrow();
  }

  Frame frame() {
    Layout built = layout.build();
    Frame frame = new Frame(built);
    for (int slot = 0; slot < built.size(); slot++) {
      fill(frame, slot, built.demands().get(slot));
    }
    return frame;
  }

  private void fill(Frame frame, int slot, Demand demand) {
    Given given = values.get(demand);
    if (given == null) {
      missing(frame, slot, demand);
    } else if (given.isUnknown()) {
      frame.miss(slot, gap(demand.subject(), given.value()));
    } else if (demand.type() instanceof Type.Choice choice) {
      frame.set(slot, choice.options().indexOf(given.value()), 0);
    } else if (given.isTruth()) {
      frame.set(slot, given.value().equals("yes") ? 1 : 0, 0);
    } else {
      Quantity quantity = given.quantity();
      frame.set(slot, quantity.base(), given.half());
    }
  }

  private void missing(Frame frame, int slot, Demand demand) {
    switch (demand.aspect()) {
      case EVER, COMPLETED -> frame.set(slot, 0, 0);
      case LINE_MEAN_X, LINE_MEAN_Y, LINE_SLOPE -> line(frame, slot, demand);
      case INTERPOLATED -> interpolated(frame, slot, demand);
      default -> {
        boolean sign = vocabulary.meaning(demand.subject()).filter(Filling::isSign).isPresent();
        if (sign) {
          frame.set(slot, 0, 0);
        } else {
          frame.miss(slot, Gap.now(demand.subject(), Cause.NEVER_TAKEN));
        }
      }
    }
  }

  private static boolean isSign(org.gradus.rule.check.Symbol symbol) {
    return symbol instanceof org.gradus.rule.check.Symbol.Datum datum
        && datum.role() == org.gradus.rule.check.Symbol.Role.SIGN;
  }

  // unknown: too old, now | at 4:00 | never
  private static Gap gap(String subject, String text) {
    String[] parts = text.substring("unknown: ".length()).split(", ", -1);
    Cause cause =
        Arrays.stream(Cause.values())
            .filter(c -> c.words().equals(parts[0]))
            .findFirst()
            .orElseThrow(() -> new AssertionError("no cause: " + parts[0]));
    if (parts[1].equals("now")) {
      return Gap.now(subject, cause);
    } else if (parts[1].equals("never")) {
      return Gap.never(subject, cause);
    }
    double seconds = Names.quantity(parts[1].substring("at ".length())).base();
    return Gap.at(java.time.Duration.ofSeconds(Math.round(seconds)), subject, cause);
  }

  // Least squares, from the text-book sums; y stands before x.
  private void line(Frame frame, int slot, Demand demand) {
    List<double[]> points = line.map(Given.Line::points).orElse(List.of());
    boolean anchored = demand.subjects().size() > 2;
    String subject = "the line through the stages";
    if (points.size() < (anchored ? 1 : 2)) {
      frame.miss(slot, Gap.never(subject, Cause.TOO_FEW_STAGES));
      return;
    }
    List<double[]> weighted = new ArrayList<>();
    points.forEach(p -> weighted.add(new double[] {p[0], p[1], 1 / (STAGE_SD * STAGE_SD)}));
    if (anchored) {
      double sd = given(demand.subjects().get(4));
      weighted.add(
          new double[] {
            given(demand.subjects().get(2)), given(demand.subjects().get(3)), 1 / (sd * sd)
          });
    }
    double meanY = mean(weighted, p -> p[0]);
    double meanX = mean(weighted, p -> p[1]);
    double xy = mean(weighted, p -> (p[1] - meanX) * (p[0] - meanY));
    double xx = mean(weighted, p -> (p[1] - meanX) * (p[1] - meanX));
    double yy = mean(weighted, p -> (p[0] - meanY) * (p[0] - meanY));
    if (xy <= 0) {
      frame.miss(slot, Gap.never(subject, Cause.NOT_RISING));
    } else {
      // Through an anchor it is x that is off, so that x is fitted on y.
      double slope = anchored ? yy / xy : xy / xx;
      Aspect aspect = demand.aspect();
      frame.set(
          slot,
          aspect == Aspect.LINE_MEAN_X ? meanX : aspect == Aspect.LINE_MEAN_Y ? meanY : slope,
          0);
    }
  }

  // Between each two neighbours by hand; y stands before x.
  private void interpolated(Frame frame, int slot, Demand demand) {
    List<double[]> points = line.map(Given.Line::points).orElse(List.of());
    double at = demand.subjects().size() > 2 ? given(demand.subjects().get(2)) : demand.seconds();
    for (int i = 1; i < points.size(); i++) {
      double[] one = points.get(i - 1);
      double[] two = points.get(i);
      if (one[1] <= at && at <= two[1]) {
        frame.set(slot, one[0] + (two[0] - one[0]) * (at - one[1]) / (two[1] - one[1]), 0);
        return;
      }
    }
    frame.miss(slot, Gap.never("the value between the stages", Cause.NOT_REACHED));
  }

  private static double mean(List<double[]> points, ToDoubleFunction<double[]> value) {
    double weights = points.stream().mapToDouble(p -> p[2]).sum();
    return points.stream().mapToDouble(p -> p[2] * value.applyAsDouble(p)).sum() / weights;
  }

  private double given(String name) {
    return values.entrySet().stream()
        .filter(one -> one.getKey().aspect() == Aspect.VALUE && one.getKey().subject().equals(name))
        .map(one -> one.getValue().quantity().base())
        .findFirst()
        .orElseThrow(() -> new AssertionError("not given: " + name));
  }
}
