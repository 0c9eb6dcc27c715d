package org.gradus.review;

import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gradus.diagnostic.Span;
import org.gradus.protocol.EstimateLine;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Recovery;
import org.gradus.protocol.Stage;
import org.gradus.protocol.Stretch;
import org.gradus.rule.check.Demand;
import org.gradus.rule.syntax.Selection;

/** Signals that are used where they are never due. */
final class SignalCheck {

  private final Protocol protocol;
  private final List<ReviewFinding> found;
  private final Map<String, ReviewFinding> bySignal = new LinkedHashMap<>();

  SignalCheck(Protocol protocol, List<ReviewFinding> found) {
    this.protocol = protocol;
    this.found = found;
  }

  void look() {
    for (ProtocolRule rule : protocol.rules().anyTime()) {
      if (rule.isStop() || rule.isFinish()) {
        Set<Demand> demands = rule.rule().condition().map(when -> when.demands()).orElse(Set.of());
        boolean watchesRecovery = rule.isStop() && !rule.stagesOnly();
        used(demands, rule.id(), rule.rule().sentence().span(), watchesRecovery);
      }
    }
    for (EstimateLine estimate : protocol.assessment().estimates()) {
      boolean ofStages =
          estimate.from() instanceof Selection.All || estimate.from() instanceof Selection.FromEnd;
      if (ofStages) {
        Span where = protocol.notes().place("estimate " + estimate.id());
        used(estimate.formula().demands(), estimate.id(), where, false);
      }
    }
    found.addAll(bySignal.values());
  }

  private void used(Set<Demand> demands, String user, Span where, boolean inRecovery) {
    for (Demand demand : demands) {
      if (ProtocolParts.isRead(protocol, demand)) {
        List<String> never = neverDue(demand.subject(), inRecovery);
        if (!never.isEmpty()) {
          bySignal.putIfAbsent(
              demand.subject(),
              ReviewFinding.of(
                  Check.UNMEASURED_SIGNAL,
                  demand.subject(),
                  where,
                  user + " uses " + demand.subject() + ", which is never due in " + in(never),
                  ""));
        }
      }
    }
  }

  private static String in(List<String> places) {
    return String.join(", ", places);
  }

  private List<String> neverDue(String signal, boolean inRecovery) {
    List<String> never = new ArrayList<>();
    Optional<MeasureLine> line = protocol.schedule().lineOf(signal);
    for (Stage stage : protocol.stages()) {
      boolean due = line.filter(read -> isDue(read, stage)).isPresent();
      if (stage.isCounted() && !due) {
        never.add(stage.id());
      }
    }
    Optional<Recovery> recovery = protocol.recovery();
    if (inRecovery && recovery.isPresent() && !isDue(signal, recovery.get())) {
      never.add("recovery");
    }
    return never;
  }

  private static boolean isDue(MeasureLine line, Stage stage) {
    Stretch done = new Stretch(stage.lasts(), Stretch.End.DONE);
    return !line.due(stage.stretch(), stage.lasts()).isEmpty()
        || (stage.untilDone() && !line.due(done, stage.lasts()).isEmpty());
  }

  private static boolean isDue(String signal, Recovery recovery) {
    Duration limit = recovery.atMost();
    return recovery.schedule().lines().stream()
        .anyMatch(line -> line.reads(signal) && !line.due(Stretch.of(limit), limit).isEmpty());
  }
}
