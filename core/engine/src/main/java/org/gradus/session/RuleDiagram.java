package org.gradus.session;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.NotFound;
import org.gradus.diagnostic.Suggestion;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.RuleBook;
import org.gradus.rule.answer.Diagram;
import org.gradus.rule.plan.Frame;

/** Draws a rule with the values that it has at one moment of a test. */
final class RuleDiagram {

  private final TestState state;
  private final Duration time;

  RuleDiagram(TestState state, Duration time) {
    this.state = state;
    this.time = time;
  }

  Diagram of(String id) {
    RuleBook rules = state.protocol.rules();
    Optional<ProtocolRule> atStageEnd = state.lastRun().flatMap(stage -> named(id, at(stage)));
    if (atStageEnd.isPresent()) {
      return drawn(atStageEnd.get(), dueFrame(state.lastRun().orElseThrow()));
    }
    Optional<ProtocolRule> other =
        named(
            id, Stream.of(rules.before(), rules.anyTime(), rules.recovery()).flatMap(List::stream));
    if (other.isPresent()) {
      return drawn(other.get(), FrameFiller.latest(state, time));
    }
    return drawn(
        named(id, everywhere()).orElseThrow(() -> unknown(id)), FrameFiller.atFinish(state));
  }

  private Diagram drawn(ProtocolRule rule, Frame frame) {
    return rule.rule().diagram(frame, time.toMillis() / 1000.0);
  }

  private Stream<ProtocolRule> at(StageRun stage) {
    return state.protocol.rulesAtEndOf(stage.stage()).stream();
  }

  // A rule of another stage, or of the result, is shown as things stood when the exercise ended.
  private Stream<ProtocolRule> everywhere() {
    Protocol protocol = state.protocol;
    RuleBook rules = protocol.rules();
    Stream<ProtocolRule> ends =
        protocol.stages().stream().flatMap(stage -> protocol.rulesAtEndOf(stage).stream());
    return Stream.of(
            rules.before().stream(),
            rules.anyTime().stream(),
            ends,
            rules.recovery().stream(),
            rules.result().stream())
        .flatMap(each -> each);
  }

  private static Optional<ProtocolRule> named(String id, Stream<ProtocolRule> rules) {
    return rules.filter(rule -> rule.id().equals(id)).findFirst();
  }

  // Before a stage is due to end its rules see what would count now.
  private Frame dueFrame(StageRun stage) {
    Duration since = stage.since(time);
    boolean ending = state.phase == Phase.STAGE && time.compareTo(stage.end()) >= 0;
    Duration due = ending ? new StageJudge(StateAt.of(state, time)).newestDue() : since;
    return FrameFiller.atDue(state, stage, due);
  }

  private NotFound unknown(String id) {
    String help =
        Suggestion.help(
            id, everywhere().map(ProtocolRule::id).distinct().toList(), "see the protocol's rules");
    return new NotFound(Code.G604, "rule", id, help);
  }
}
