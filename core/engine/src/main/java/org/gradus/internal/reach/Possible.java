package org.gradus.internal.reach;

import java.util.DoubleSummaryStatistics;
import java.util.Optional;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Fact;
import org.gradus.protocol.LoadRange;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Question;
import org.gradus.protocol.Setting;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Cell;
import org.gradus.rule.bounds.Presence;
import org.gradus.unit.Quantity;
import org.gradus.unit.QuantityRange;
import org.gradus.unit.Type;

/** The values that facts can have in any test of a protocol. */
final class Possible {

  private final Protocol protocol;

  Possible(Protocol protocol) {
    this.protocol = protocol;
  }

  Cell values(Fact fact, Type type) {
    if (fact instanceof Fact.Read read) {
      return signal(read.signal(), type);
    } else if (fact instanceof Fact.Baseline baseline) {
      return signal(baseline.signal(), type);
    } else if (fact instanceof Fact.AtFinish finish) {
      return signal(finish.signal(), type);
    } else if (fact instanceof Fact.Previous previous && !previous.load()) {
      return signal(previous.name(), type);
    } else if (fact instanceof Fact.Load load) {
      return load(load.name(), type);
    } else if (fact instanceof Fact.Previous previous) {
      return load(previous.name(), type);
    } else if (fact instanceof Fact.Clock && type instanceof Type.Measure) {
      return Cell.between(0, Double.POSITIVE_INFINITY);
    } else if (fact instanceof Fact.Attribute attribute && type instanceof Type.Measure) {
      return attribute(attribute.name());
    } else if (fact instanceof Fact.Answer answer) {
      return answers(protocol.instruments().question(answer.question()), type);
    } else if (fact instanceof Fact.Reported reported && type instanceof Type.Measure) {
      return Cell.between(0, protocol.instruments().sign(reported.name()).top().orElse(0));
    }
    return Box.anything(type);
  }

  // Where values are offered the answer lies among them.
  private static Cell answers(Question question, Type type) {
    if (question.options().isEmpty()) {
      return within(question.range(), type);
    }
    DoubleSummaryStatistics offered =
        question.options().stream()
            .mapToDouble(option -> option.value().base())
            .summaryStatistics();
    return Cell.between(offered.getMin(), offered.getMax());
  }

  /** Every value that the file allows for a setting. */
  Cell setting(String name, Type type) {
    Setting setting = Optional.ofNullable(protocol.settings().get(name)).orElseThrow();
    if (!(type instanceof Type.Measure)) {
      return Box.anything(type);
    }
    DoubleSummaryStatistics allowed =
        setting.figures().stream().mapToDouble(Quantity::base).summaryStatistics();
    return Cell.between(allowed.getMin(), allowed.getMax());
  }

  /** One of the options of a choice. */
  static Cell option(int index) {
    return new Cell.Options(1L << index, Presence.KNOWN);
  }

  private static Cell attribute(String name) {
    Attribute attribute = Attribute.named(name).orElseThrow();
    return Cell.between(attribute.least(), attribute.most());
  }

  // Whatever a stage sets has been proved to lie there, and what is told lies there or is refused.
  private Cell load(String name, Type type) {
    return within(
        Optional.ofNullable(protocol.instruments().loads().get(name)).map(LoadRange::range), type);
  }

  private Cell signal(String name, Type type) {
    return within(protocol.instruments().signal(name).range(), type);
  }

  private static Cell within(Optional<QuantityRange> range, Type type) {
    return range.isPresent() && type instanceof Type.Measure
        ? Cell.between(range.get().low().base(), range.get().high().base())
        : Box.anything(type);
  }
}
