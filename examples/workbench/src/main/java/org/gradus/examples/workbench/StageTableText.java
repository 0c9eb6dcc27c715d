package org.gradus.examples.workbench;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.gradus.protocol.CostLine;
import org.gradus.protocol.Fact;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Stage;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.plan.Frame;
import org.gradus.session.Times;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;

/** The stages of a protocol as rows, each with a bar as long as its oxygen cost. */
final class StageTableText {

  private static final int WIDEST_BAR = 40;
  private static final int NARROWEST_BAR = 8;

  private final Protocol protocol;
  private final List<Demand> demands;

  StageTableText(Protocol protocol) {
    this.protocol = protocol;
    this.demands = protocol.wiring().layout().demands();
  }

  List<String> rows(int columns) {
    List<String> heads = heads();
    int head = heads.stream().mapToInt(String::length).max().orElse(0);
    double most =
        protocol.stages().stream().mapToDouble(stage -> uptake(stage).orElse(0.0)).max().orElse(0);
    int bar = Math.max(NARROWEST_BAR, Math.min(WIDEST_BAR, columns - head - 9));
    List<String> rows = new ArrayList<>();
    for (int i = 0; i < heads.size(); i++) {
      Stage stage = protocol.stages().get(i);
      Optional<Double> uptake = uptake(stage);
      String picture =
          uptake
              .map(
                  cost ->
                      "#".repeat((int) Math.max(1, Math.rint(cost * bar / most)))
                          + String.format(Locale.ROOT, " %.1f", cost))
              .orElse("");
      boolean fits = head + 2 + bar + 6 <= columns;
      if (fits) {
        rows.add(
            String.format(Locale.ROOT, "%-" + head + "s  %s", heads.get(i), picture)
                .stripTrailing());
      } else {
        rows.add(heads.get(i));
        rows.add("  " + picture);
      }
    }
    if (most > 0) {
      rows.add("(# is oxygen cost in mL/kg/min by the first equation that applies)");
    }
    return rows;
  }

  // Each column is as wide as what is widest in it.
  private List<String> heads() {
    int ids = width(stage -> stage.id());
    int times = width(stage -> lasts(stage));
    return protocol.stages().stream()
        .map(
            stage ->
                String.format(
                        Locale.ROOT, "%-" + ids + "s  %" + times + "s  ", stage.id(), lasts(stage))
                    + loads(stage))
        .toList();
  }

  private int width(Function<Stage, String> column) {
    return protocol.stages().stream().mapToInt(one -> column.apply(one).length()).max().orElse(1);
  }

  /** A stage in one line. */
  String line(Stage stage) {
    return stage.id() + "  " + lasts(stage) + "  " + loads(stage);
  }

  private static String lasts(Stage stage) {
    return (stage.untilDone() ? "done, at most " : "") + Times.clock(stage.lasts());
  }

  private String loads(Stage stage) {
    String loads = stage.loads().stream().map(this::load).collect(Collectors.joining(", "));
    return loads.isEmpty() ? "no load" : loads;
  }

  /** A load as it is written: a figure, or the formula it is worked out by. */
  String load(Stage.Load load) {
    double value = load.value().value(new Frame(protocol.wiring().layout()));
    String shown =
        Double.isNaN(value)
            ? load.name() + " " + load.value().text()
            : Quantity.ofBase(value, load.unit()).rounded(2).toString();
    return load.ramp().isPresent() ? shown + " rising" : shown;
  }

  /** The uptake of a stage, where it does not hang on the person. */
  Optional<Double> uptake(Stage stage) {
    Frame frame = new Frame(protocol.wiring().layout());
    for (Stage.Load load : stage.loads()) {
      double value = load.value().value(frame);
      for (int slot = 0; slot < demands.size(); slot++) {
        Demand demand = demands.get(slot);
        boolean here =
            demand.aspect() == Aspect.VALUE
                && protocol.wiring().fact(demand) instanceof Fact.Load set
                && set.name().equals(load.name());
        if (here) {
          frame.set(slot, value, 0);
        }
      }
    }
    for (CostLine cost : protocol.assessment().costs()) {
      boolean applies =
          cost.when().map(when -> when.test(frame) == Truth.TRUE).orElse(true)
              && cost.uptake().kind() == Kind.UPTAKE;
      double value = applies ? cost.uptake().value(frame) : Double.NaN;
      if (!Double.isNaN(value)) {
        return Optional.of(value);
      }
    }
    return Optional.empty();
  }
}
