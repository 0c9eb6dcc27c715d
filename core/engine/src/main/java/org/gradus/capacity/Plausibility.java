package org.gradus.capacity;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.gradus.internal.KeyMoments;
import org.gradus.protocol.Fact;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Suspicion;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.check.Demand;
import org.gradus.rule.plan.Frame;
import org.gradus.session.Outcome;
import org.gradus.session.StageResult;
import org.gradus.unit.Quantity;
import org.gradus.words.FileText;
import org.gradus.words.Joined;
import org.gradus.words.Message;

/**
 * Looks at a result with the rules that are made for it. A rule that speaks of a stage is looked at
 * at the end of each one that was completed, any other once, at the end of the exercise.
 */
final class Plausibility {

  private static final Suspicion ANYTHING = new Suspicion("the answer", Suspicion.Look.SUM);

  private final Outcome outcome;
  private final Protocol protocol;
  private final Map<String, Quantity> results;

  /**
   * @param results what came out, by the names of the results
   */
  Plausibility(Outcome outcome, Map<String, Quantity> results) {
    this.outcome = outcome;
    this.protocol = outcome.protocol();
    this.results = Map.copyOf(results);
  }

  List<Finding> findings() {
    List<Finding> findings = new ArrayList<>();
    for (ProtocolRule rule : protocol.rules().result()) {
      if (isOfStage(rule)) {
        ofStages(rule).ifPresent(findings::add);
      } else {
        Frame frame = told(KeyMoments.of(outcome).atFinish());
        if (rule.rule().test(frame) == Truth.TRUE) {
          findings.add(finding(rule, frame, List.of()));
        }
      }
    }
    return findings;
  }

  private Optional<Finding> ofStages(ProtocolRule rule) {
    List<String> stages = new ArrayList<>();
    Optional<Frame> first = Optional.empty();
    for (StageResult stage : outcome.stages()) {
      Frame frame = told(KeyMoments.of(outcome).atEndOf(stage.place()));
      if (stage.completed() && rule.rule().test(frame) == Truth.TRUE) {
        stages.add(stage.id());
        first = first.or(() -> Optional.of(frame));
      }
    }
    return first.map(frame -> finding(rule, frame, stages));
  }

  private static Finding finding(ProtocolRule rule, Frame frame, List<String> stages) {
    String text = rule.rule().text();
    return new Finding(
        rule.id(),
        rule.suspicion().orElse(ANYTHING),
        stages,
        rule.why().isEmpty()
            ? Message.of(Joined.SENTENCE, text)
            : Message.of(Joined.ALONE, new FileText(rule.why())),
        rule.rule().condition().map(when -> when.filled(frame).toString()).orElse(text),
        rule.source());
  }

  private Frame told(Frame frame) {
    List<Demand> demands = frame.layout().demands();
    for (int slot = 0; slot < demands.size(); slot++) {
      Demand demand = demands.get(slot);
      boolean asked = isPlain(demand) && protocol.wiring().fact(demand) instanceof Fact.Result;
      if (asked && results.containsKey(demand.subject())) {
        frame.set(slot, results.get(demand.subject()).base(), 0);
      }
    }
    return frame;
  }

  private boolean isOfStage(ProtocolRule rule) {
    Stream<Demand> demands =
        rule.rule().condition().stream().flatMap(when -> when.demands().stream());
    return demands.anyMatch(demand -> isPlain(demand) && isOfStage(protocol.wiring().fact(demand)));
  }

  private static boolean isOfStage(Fact fact) {
    return fact instanceof Fact.Read
        || fact instanceof Fact.PreviousReading
        || switch (fact.dependsOn()) {
          case LOAD, STAGE, CLOCK -> true;
          case PERSON, READING, SIGN, RESULT -> false;
        };
  }

  private static boolean isPlain(Demand demand) {
    return switch (demand.aspect()) {
      case COUNT, COMPLETED, EVER, LINE_MEAN_X, LINE_MEAN_Y, LINE_SLOPE, INTERPOLATED -> false;
      case VALUE, EARLIER, AVERAGE, HIGHEST, LOWEST -> true;
    };
  }
}
