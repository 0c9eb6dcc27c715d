package org.gradus.capacity;

import java.util.List;
import java.util.Optional;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Wiring;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.answer.Gap.Cause;
import org.gradus.rule.plan.Frame;
import org.gradus.unit.Quantity;

/**
 * Reads y where x goes through a value, on the straight lines from each selected stage to the next.
 * It never reads beyond the stages, and not where x goes through the value more than once.
 */
final class Interpolation {

  private final Protocol protocol;
  private final Wiring.Line line;
  private final Wiring.Line.Crossing crossing;

  private Interpolation(Protocol protocol, Wiring.Line line, Wiring.Line.Crossing crossing) {
    this.protocol = protocol;
    this.line = line;
    this.crossing = crossing;
  }

  /** Fills the slot of what is read, or says there why nothing can be read. */
  static void fill(
      Frame frame,
      Protocol protocol,
      List<Frame> stages,
      Wiring.Line line,
      Wiring.Line.Crossing crossing) {
    new Interpolation(protocol, line, crossing).fill(frame, stages);
  }

  private void fill(Frame frame, List<Frame> stages) {
    int slot = line.slots().get(0).slot();
    double at =
        crossing.named().isPresent() ? crossing.named().get().value(frame) : crossing.fixed();
    if (Double.isNaN(at)) {
      frame.miss(slot, crossing.named().orElseThrow().gaps(frame).get(0));
      return;
    }
    Optional<Gap> missing =
        stages.stream()
            .flatMap(
                stage -> List.of(line.x(), line.y()).stream().flatMap(f -> f.gaps(stage).stream()))
            .findFirst();
    if (missing.isPresent()) {
      frame.miss(slot, missing.get());
      return;
    }
    double[] x = stages.stream().mapToDouble(line.x()::value).toArray();
    double[] y = stages.stream().mapToDouble(line.y()::value).toArray();
    double found = Double.NaN;
    int times = 0;
    for (int stage = 0; stage < x.length; stage++) {
      if (x[stage] == at) {
        found = y[stage];
        times++;
      } else if (stage > 0 && x[stage - 1] != at && (x[stage - 1] < at) != (x[stage] < at)) {
        double part = (at - x[stage - 1]) / (x[stage] - x[stage - 1]);
        found = y[stage - 1] + part * (y[stage] - y[stage - 1]);
        times++;
      }
    }
    if (times == 1) {
      frame.set(slot, found, 0);
    } else {
      frame.miss(
          slot, Gap.never(words(at, x), times == 0 ? Cause.NOT_REACHED : Cause.REACHED_AGAIN));
    }
  }

  // "lactate 4 mmol/L, highest 3.2 mmol/L", of which the cause says that it was not reached.
  private String words(double at, double[] x) {
    String here = crossing.xName().replace('_', ' ').replace('.', ' ') + " " + shown(at);
    double lowest = Double.POSITIVE_INFINITY;
    double highest = Double.NEGATIVE_INFINITY;
    for (double one : x) {
      lowest = Math.min(lowest, one);
      highest = Math.max(highest, one);
    }
    return highest < at
        ? here + ", highest " + shown(highest)
        : lowest > at ? here + ", lowest " + shown(lowest) : here;
  }

  private Quantity shown(double base) {
    return protocol.shown(crossing.xName(), base, line.x().kind()).rounded(2);
  }
}
