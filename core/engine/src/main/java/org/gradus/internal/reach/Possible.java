package org.gradus.internal.reach;

import java.util.DoubleSummaryStatistics;
import java.util.Optional;
import org.gradus.protocol.Fact;
import org.gradus.protocol.LoadRange;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Question;
import org.gradus.protocol.Setting;
import org.gradus.protocol.Stage;
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
    return fact.accept(new Values(type));
  }

  /** The values of each kind of fact. */
  private final class Values implements Fact.Visitor<Cell> {

    private final Type type;

    private Values(Type type) {
      this.type = type;
    }

    private Cell measure(Cell values) {
      return type instanceof Type.Measure ? values : Box.anything(type);
    }

    @Override
    public Cell read(Fact.Read fact) {
      return signal(fact.of(), type);
    }

    @Override
    public Cell baseline(Fact.Baseline fact) {
      return signal(fact.of(), type);
    }

    @Override
    public Cell previousReading(Fact.PreviousReading fact) {
      return signal(fact.of(), type);
    }

    @Override
    public Cell previousLoad(Fact.PreviousLoad fact) {
      return Possible.this.load(fact.name(), type);
    }

    @Override
    public Cell atFinish(Fact.AtFinish fact) {
      return signal(fact.of(), type);
    }

    @Override
    public Cell named(Fact.Named fact) {
      return signal(fact.of(), type);
    }

    @Override
    public Cell load(Fact.Load fact) {
      return Possible.this.load(fact.name(), type);
    }

    @Override
    public Cell clock(Fact.Clock fact) {
      return measure(Cell.between(0, Double.POSITIVE_INFINITY));
    }

    @Override
    public Cell round(Fact.Round fact) {
      return measure(Cell.between(1, protocol.stages().size()));
    }

    @Override
    public Cell attribute(Fact.Attribute fact) {
      return measure(Cell.between(fact.which().least(), fact.which().most()));
    }

    @Override
    public Cell answer(Fact.Answer fact) {
      return answers(protocol.instruments().question(fact.question()), type);
    }

    @Override
    public Cell result(Fact.Result fact) {
      return Box.anything(type);
    }

    @Override
    public Cell reported(Fact.Reported fact) {
      return measure(Cell.between(0, protocol.instruments().sign(fact.name()).top().orElse(0)));
    }
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

  /** Which round of a block a stage belongs to: it is known where there is one. */
  static Cell round(Fact.Round fact, Stage stage) {
    return stage
        .round()
        .filter(round -> round.block().equals(fact.block()))
        .<Cell>map(round -> Cell.between(round.number(), round.number()))
        .orElse(Cell.between(1, 1).with(Presence.UNKNOWN));
  }

  /** One of the options of a choice. */
  static Cell option(int index) {
    return new Cell.Options(1L << index, Presence.KNOWN);
  }

  // Whatever a stage sets has been proved to lie there, and what is told lies there or is refused.
  Cell load(String name, Type type) {
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
