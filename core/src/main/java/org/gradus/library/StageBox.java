package org.gradus.library;

import java.time.Duration;
import java.util.Optional;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Eligibility;
import org.gradus.protocol.Fact;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Question;
import org.gradus.protocol.Stage;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Cell;
import org.gradus.rule.bounds.Presence;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.check.Type;
import org.gradus.rule.syntax.Action;
import org.gradus.rule.syntax.RuleText.QuantityRange;

/**
 * All moments at which a stage can be due to end, with every scheduled reading taken: a box for the
 * abstract evaluator. A reading may be anything that is physically possible.
 */
final class StageBox {

  private final Protocol protocol;
  private final Stage stage;

  private StageBox(Protocol protocol, Stage stage) {
    this.protocol = protocol;
    this.stage = stage;
  }

  static Box of(Protocol protocol, Stage stage) {
    StageBox moments = new StageBox(protocol, stage);
    Box box = Box.of(protocol.wiring().layout(), (slot, demand) -> moments.cell(demand));
    return moments.afterReady(moments.withLoads(box));
  }

  // Nobody is in a stage whom a defer has kept from starting.
  private Box afterReady(Box box) {
    Box narrowed = box;
    for (ProtocolRule rule : protocol.rules().before()) {
      if (rule.action() instanceof Action.Defer && rule.rule().condition().isPresent()) {
        narrowed = rule.rule().condition().get().whereItFails(narrowed);
      }
    }
    return narrowed;
  }

  private Box withLoads(Box box) {
    Box loaded = box;
    for (int slot = 0; slot < protocol.wiring().layout().size(); slot++) {
      Demand demand = protocol.wiring().layout().demands().get(slot);
      Optional<Stage.Load> load =
          stage.loads().stream().filter(l -> l.name().equals(demand.subject())).findFirst();
      if (demand.aspect() == Aspect.VALUE && load.isPresent()) {
        loaded = loaded.with(slot, load.get().value().range(box));
      }
    }
    return loaded;
  }

  private Cell cell(Demand demand) {
    Cell anything = Box.anything(demand.type());
    switch (demand.aspect()) {
      case EVER -> {
        return anything;
      }
      case LINE_MEAN_X, LINE_MEAN_Y, LINE_SLOPE -> {
        return anything.with(Presence.MAYBE);
      }
      case VALUE, EARLIER, AVERAGE, HIGHEST, LOWEST -> {
        return cell(protocol.wiring().fact(demand), demand);
      }
    }
    return anything;
  }

  private Cell cell(Fact fact, Demand demand) {
    Cell anything = Box.anything(demand.type());
    if (fact instanceof Fact.Read read) {
      return possible(read.signal(), demand.type())
          .with(scheduled(demand) ? Presence.KNOWN : Presence.UNKNOWN);
    } else if (fact instanceof Fact.Baseline baseline) {
      return possible(baseline.signal(), demand.type()).with(Presence.MAYBE);
    } else if (fact instanceof Fact.Previous previous) {
      Cell range = previous.load() ? anything : possible(previous.name(), demand.type());
      return range.with(stage.place() > 0 ? Presence.MAYBE : Presence.UNKNOWN);
    } else if (fact instanceof Fact.AtFinish || fact instanceof Fact.Load) {
      return anything.with(Presence.UNKNOWN);
    } else if (fact instanceof Fact.Clock clock) {
      return clock(clock, demand.type());
    } else if (fact instanceof Fact.Attribute attribute) {
      return attribute(attribute.name(), demand.type());
    } else if (fact instanceof Fact.Answer answer) {
      Question question = protocol.instruments().question(answer.question());
      return within(question.range(), demand.type()).with(Presence.MAYBE);
    } else if (fact instanceof Fact.Reported reported) {
      int top = protocol.instruments().sign(reported.name()).top().orElse(0);
      return demand.type().equals(Type.CONDITION) ? anything : Cell.between(0, top);
    }
    return anything.with(Presence.MAYBE);
  }

  private Cell possible(String signal, Type type) {
    return within(protocol.instruments().signal(signal).range(), type);
  }

  private static Cell within(Optional<QuantityRange> range, Type type) {
    return range.isPresent() && type instanceof Type.Measure
        ? Cell.between(range.get().low().base(), range.get().high().base())
        : Box.anything(type);
  }

  private boolean scheduled(Demand demand) {
    Optional<MeasureLine> line = protocol.schedule().lineOf(demand.subject());
    Optional<Duration> due = line.flatMap(l -> l.lastDue(stage.lasts(), stage.lasts()));
    if (due.isEmpty() || demand.aspect() != Aspect.EARLIER) {
      return due.isPresent();
    }
    Duration earlier = due.get().minusMillis(Math.round(demand.seconds() * 1000));
    return line.get().due(stage.lasts(), stage.lasts()).contains(earlier);
  }

  private Cell clock(Fact.Clock clock, Type type) {
    return switch (clock.which()) {
      case STAGE -> new Cell.Options(1L << stage.place(), Presence.KNOWN);
      case STAGE_NUMBER -> Cell.between(0, protocol.stages().size());
      case STAGE_TIME, TEST_TIME, EXERCISE_TIME -> Cell.between(0, Double.POSITIVE_INFINITY);
      case RECOVERY_TIME -> Box.anything(type).with(Presence.UNKNOWN);
    };
  }

  private Cell attribute(String name, Type type) {
    Eligibility eligibility = protocol.eligibility();
    boolean ages =
        name.equals(Attribute.AGE.word()) && eligibility.outside() == Eligibility.Outside.DEFER;
    Cell range =
        ages
            ? Cell.between(eligibility.youngest(), eligibility.oldest())
            : type instanceof Type.Measure
                ? Cell.between(0, Double.POSITIVE_INFINITY)
                : Box.anything(type);
    return range.with(eligibility.needs().contains(name) ? Presence.KNOWN : Presence.MAYBE);
  }
}
