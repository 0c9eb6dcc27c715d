package org.gradus.review;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.gradus.protocol.Fact;
import org.gradus.protocol.Protocol;
import org.gradus.rule.Compared;
import org.gradus.rule.bounds.Cell;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.plan.Frame;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;

/** What is moved to the edge of a comparison, with what moves along, while all else stays. */
final class Varied {

  private static final int SCAN = 400;
  private static final int HALVINGS = 80;
  private static final double FAR = 1e3;

  private final Protocol protocol;
  private final Compared compared;
  private final Demand demand;
  private final int slot;
  private final List<Integer> along;

  private Varied(Protocol protocol, Compared compared, Demand demand, List<Demand> sides) {
    this.protocol = protocol;
    this.compared = compared;
    this.demand = demand;
    List<Demand> demands = protocol.wiring().layout().demands();
    this.slot = demands.indexOf(demand);
    this.along =
        IntStream.range(0, demands.size())
            .filter(other -> movesAlong(demands.get(other)) && !sides.contains(demands.get(other)))
            .boxed()
            .toList();
  }

  /** All that can be varied in a comparison: what is read first, then the person, then the rest. */
  static List<Varied> in(Protocol protocol, Compared compared) {
    List<Demand> sides = new ArrayList<>();
    sides.addAll(compared.left().demands());
    sides.addAll(compared.right().demands());
    return sides.stream()
        .distinct()
        .filter(demand -> demand.type() instanceof Type.Measure)
        .sorted(
            Comparator.comparingInt((Demand demand) -> rank(protocol, demand))
                .thenComparing(Demand::subject))
        .map(demand -> new Varied(protocol, compared, demand, sides))
        .toList();
  }

  private static int rank(Protocol protocol, Demand demand) {
    if (demand.aspect() == Aspect.VALUE && ProtocolParts.isRead(protocol, demand)) {
      return 0;
    } else if (ProtocolParts.signal(protocol, demand).isPresent()) {
      return 1;
    }
    return demand.aspect() == Aspect.VALUE ? 2 : 3;
  }

  // What was read a minute or a stage earlier moves along, unless the comparison is about just
  // that: a steady rate stays steady, a rate that has risen by 3 bpm still has.
  private boolean movesAlong(Demand other) {
    boolean alike = demand.aspect() == Aspect.VALUE && other.type().equals(demand.type());
    return alike
        && switch (other.aspect()) {
          case EARLIER, AVERAGE, HIGHEST, LOWEST -> other.subject().equals(demand.subject());
          case VALUE ->
              isBefore(other)
                  && protocol.wiring().fact(demand) instanceof Fact.Read read
                  && ProtocolParts.signal(protocol, other).filter(read.of()::equals).isPresent();
          case EVER, COUNT, COMPLETED, LINE_MEAN_X, LINE_MEAN_Y, LINE_SLOPE, INTERPOLATED -> false;
        };
  }

  private boolean isBefore(Demand of) {
    return of.aspect() == Aspect.VALUE
        && protocol.wiring().fact(of) instanceof Fact.PreviousReading;
  }

  /** Whether it is a reading of the stage before. */
  boolean isBefore() {
    return isBefore(demand);
  }

  Demand demand() {
    return demand;
  }

  int slot() {
    return slot;
  }

  /** The readings with this one at a value. */
  Frame at(Frame start, double value) {
    Frame frame = new Frame(protocol.wiring().layout());
    for (int i = 0; i < protocol.wiring().layout().size(); i++) {
      if (start.isKnown(i)) {
        frame.set(i, start.value(i), 0);
      } else {
        frame.miss(i, start.gap(i));
      }
    }
    double moved = start.isKnown(slot) ? value - start.value(slot) : 0;
    for (int other : along) {
      if (start.isKnown(other)) {
        frame.set(other, start.value(other) + moved, 0);
      }
    }
    frame.set(slot, value, 0);
    return frame;
  }

  /** Where both sides are the same, and nearest to the readings at which it starts. */
  OptionalDouble edge(Frame start, Cell.Range range) {
    double low = Math.max(range.low(), Grain.low(protocol, demand, new double[] {FAR}));
    double high = Math.min(range.high(), Grain.high(protocol, demand, new double[] {FAR}));
    double from = Math.max(range.low(), Math.min(low, high));
    double to = Math.min(range.high(), Math.max(low, high));
    double here = start.isKnown(slot) ? start.value(slot) : (from + to) / 2;
    OptionalDouble nearest = OptionalDouble.empty();
    double width = (to - from) / SCAN;
    for (int i = 0; i < SCAN; i++) {
      double left = from + i * width;
      double right = left + width;
      double a = compared.excess(at(start, left));
      double b = compared.excess(at(start, right));
      if (!Double.isNaN(a) && !Double.isNaN(b) && a * b <= 0 && a != b) {
        double found = halve(start, left, right, a);
        boolean nearer =
            nearest.isEmpty() || Math.abs(found - here) < Math.abs(nearest.getAsDouble() - here);
        nearest = nearer ? OptionalDouble.of(found) : nearest;
      }
    }
    return nearest;
  }

  private double halve(Frame start, double left, double right, double atLeft) {
    double low = left;
    double high = right;
    for (int i = 0; i < HALVINGS; i++) {
      double middle = (low + high) / 2;
      boolean same = compared.excess(at(start, middle)) * atLeft > 0;
      low = same ? middle : low;
      high = same ? high : middle;
    }
    // The edge is mostly a round figure that halving only comes near to.
    double round = Math.rint(high * 1000) / 1000;
    return Math.abs(round - high) < 1e-6 ? round : high;
  }

  /** How far beside its edge it is looked at. */
  double step() {
    return Math.max(Grain.step(protocol, demand), 1e-2);
  }

  Quantity quantity(double value) {
    var kind = ((Type.Measure) demand.type()).kind();
    return Quantity.ofBase(value, Grain.unit(protocol, demand, kind)).rounded(4);
  }

  String name() {
    return demand.aspect() == Aspect.VALUE
        ? demand.subject()
        : demand.aspect().name().toLowerCase(Locale.ROOT) + " " + demand.subject();
  }
}
