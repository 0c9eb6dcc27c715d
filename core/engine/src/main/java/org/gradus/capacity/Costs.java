package org.gradus.capacity;

import java.util.Optional;
import org.gradus.protocol.CostLine;
import org.gradus.protocol.Protocol;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.plan.Frame;

/** Which of a protocol's oxygen costs applies. */
final class Costs {

  private final Protocol protocol;

  Costs(Protocol protocol) {
    this.protocol = protocol;
  }

  /** The first that applies on what is known; none when that is open. */
  Optional<CostLine> of(Frame frame) {
    for (CostLine cost : protocol.assessment().costs()) {
      Truth applies = cost.when().isEmpty() ? Truth.TRUE : cost.when().get().test(frame);
      if (applies != Truth.FALSE) {
        return applies == Truth.TRUE ? Optional.of(cost) : Optional.empty();
      }
    }
    return Optional.empty();
  }
}
