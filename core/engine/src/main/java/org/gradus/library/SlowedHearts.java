package org.gradus.library;

import java.util.List;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Fact;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Cell;
import org.gradus.rule.bounds.Presence;
import org.gradus.rule.check.Demand;
import org.gradus.rule.syntax.Action;
import org.gradus.unit.Kind;
import org.gradus.unit.Type;

/**
 * A test that is guided by heart rate defers people whose medicine slows the heart: every rule on
 * heart rate would let them go on too long.
 */
final class SlowedHearts {

  private final Draft draft;
  private final Protocol protocol;
  private final Problems problems;

  SlowedHearts(Draft draft, Protocol protocol, Problems problems) {
    this.draft = draft;
    this.protocol = protocol;
    this.problems = problems;
  }

  void check() {
    boolean guided =
        protocol.stages().stream()
            .flatMap(stage -> protocol.rulesAtEndOf(stage).stream())
            .anyMatch(this::readsHeartRate);
    if (guided && !defers()) {
      problems.add(draft.header.where(), Code.G408);
    }
  }

  private boolean readsHeartRate(ProtocolRule rule) {
    return rule.rule().condition().stream()
        .flatMap(condition -> condition.demands().stream())
        .anyMatch(this::isHeartRate);
  }

  private boolean isHeartRate(Demand demand) {
    boolean ofSlots =
        switch (demand.aspect()) {
          case VALUE, EARLIER, AVERAGE, HIGHEST, LOWEST -> true;
          case EVER, COUNT, COMPLETED, LINE_MEAN_X, LINE_MEAN_Y, LINE_SLOPE, INTERPOLATED -> false;
        };
    return ofSlots
        && demand.type().equals(new Type.Measure(Kind.HEART_RATE))
        && protocol.wiring().fact(demand) instanceof Fact.Read;
  }

  private boolean defers() {
    List<Demand> demands = protocol.wiring().layout().demands();
    OptionalInt slot =
        IntStream.range(0, demands.size())
            .filter(i -> demands.get(i).subject().equals(Attribute.LOWERS_HEART_RATE.word()))
            .findFirst();
    if (slot.isEmpty()) {
      return false;
    }
    Box slowed =
        Box.of(
                protocol.wiring().layout(),
                (i, demand) -> Box.anything(demand.type()).with(Presence.MAYBE))
            .with(slot.getAsInt(), Cell.condition(true));
    return protocol.rules().before().stream()
        .filter(rule -> rule.action() instanceof Action.Defer)
        .flatMap(rule -> rule.rule().condition().stream())
        .anyMatch(condition -> condition.outcomes(slowed).alwaysHolds());
  }
}
