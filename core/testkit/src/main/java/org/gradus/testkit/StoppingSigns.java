package org.gradus.testkit;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.gradus.protocol.Fact;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.rule.Condition;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.check.Demand;
import org.gradus.rule.plan.Frame;
import org.gradus.session.Event;
import org.gradus.session.Phase;
import org.gradus.session.Verdict;

/** No reported sign is passed over. */
final class StoppingSigns implements Watch {

  private final Protocol protocol;
  private final List<ProtocolRule> anyTime;
  private final List<ProtocolRule> recovery;

  StoppingSigns(Protocol protocol) {
    this.protocol = protocol;
    this.anyTime = protocol.rules().anyTime().stream().filter(ProtocolRule::isStop).toList();
    this.recovery = protocol.rules().recovery().stream().filter(ProtocolRule::isStop).toList();
  }

  @Override
  public void after(Moment moment) {
    if (moment.answer().isPresent()
        && moment.step() instanceof Step.Tell tell
        && tell.event() instanceof Event.Reported reported) {
      rules(moment.phase())
          .filter(rule -> rule.confirm().isEmpty() && holds(rule, reported))
          .findFirst()
          .ifPresent(
              rule ->
                  Watch.demand(
                      moment.answer().orElseThrow().verdict() instanceof Verdict.Stop,
                      "no stop, in spite of " + rule.id() + ": " + rule.rule().text()));
    }
  }

  private Stream<ProtocolRule> rules(Phase phase) {
    return switch (phase) {
      case STAGE -> anyTime.stream();
      case RECOVERY ->
          Stream.concat(anyTime.stream().filter(rule -> !rule.stagesOnly()), recovery.stream());
      case BEFORE, ENDED -> Stream.empty();
    };
  }

  // Whether the rule holds for this sign, whatever else is known.
  private boolean holds(ProtocolRule rule, Event.Reported reported) {
    Optional<Condition> when = rule.rule().condition();
    if (when.isEmpty() || when.get().demands().size() != 1) {
      return false;
    }
    Demand demand = when.get().demands().iterator().next();
    boolean asksForIt =
        demand.aspect() == Demand.Aspect.VALUE
            && protocol.wiring().fact(demand) instanceof Fact.Reported sign
            && sign.name().equals(reported.sign());
    if (!asksForIt) {
      return false;
    }
    Frame frame = new Frame(protocol.wiring().layout());
    int slot = protocol.wiring().layout().demands().indexOf(demand);
    frame.set(slot, reported.grade().orElse(1), 0);
    return when.get().test(frame) == Truth.TRUE;
  }
}
