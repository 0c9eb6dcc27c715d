package org.gradus.internal.reach;

import java.time.Duration;
import java.util.Optional;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Stage;
import org.gradus.protocol.Timing;
import org.gradus.rule.bounds.Presence;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;

/** Which readings are there when a stage is due to end, with every scheduled one taken. */
final class ReadingsAtEnd {

  private final Protocol protocol;

  ReadingsAtEnd(Protocol protocol) {
    this.protocol = protocol;
  }

  Presence presence(Demand demand, Stage stage, EndMoment moment) {
    Optional<MeasureLine> line = protocol.schedule(stage).lineOf(demand.subject());
    if (moment.isAnyTime()) {
      return line.filter(read -> isReadWhenDone(read, demand, moment.due())).isPresent()
          ? Presence.KNOWN
          : Presence.UNKNOWN;
    }
    Duration due = moment.due();
    Optional<Duration> last = line.flatMap(read -> read.lastDue(stage.stretch(), due));
    if (last.isEmpty()) {
      return Presence.UNKNOWN;
    }
    Duration back = Duration.ofMillis(Math.round(demand.seconds() * 1000));
    boolean filled =
        switch (demand.aspect()) {
          case EARLIER -> line.get().isDueAt(stage.stretch(), last.get().minus(back));
          case AVERAGE -> last.get().compareTo(due.minus(back)) > 0;
          case VALUE -> isFresh(line.get(), last.get(), due);
          case HIGHEST, LOWEST, EVER, COUNT, COMPLETED -> true;
          case LINE_MEAN_X, LINE_MEAN_Y, LINE_SLOPE, INTERPOLATED -> true;
        };
    return filled ? Presence.KNOWN : Presence.UNKNOWN;
  }

  // A stage may be done before its first reading is due: sure is only what is read when it is done,
  // or what comes round while it is held then.
  private static boolean isReadWhenDone(MeasureLine line, Demand demand, Duration since) {
    Duration back = Duration.ofMillis(Math.round(demand.seconds() * 1000));
    if (line.timing() instanceof Timing.WhenDone) {
      return switch (demand.aspect()) {
        case EARLIER -> false;
        case AVERAGE -> since.compareTo(back) < 0;
        case VALUE -> isFresh(line, Duration.ZERO, since);
        case HIGHEST, LOWEST, EVER, COUNT, COMPLETED -> true;
        case LINE_MEAN_X, LINE_MEAN_Y, LINE_SLOPE, INTERPOLATED -> true;
      };
    }
    return line.timing() instanceof Timing.Each each
        && demand.aspect() == Aspect.VALUE
        && since.compareTo(each.every()) >= 0
        && since.compareTo(each.from()) >= 0
        && isFresh(line, Duration.ZERO, each.every());
  }

  private static boolean isFresh(MeasureLine line, Duration taken, Duration due) {
    return line.validFor().map(limit -> due.minus(taken).compareTo(limit) <= 0).orElse(true);
  }
}
