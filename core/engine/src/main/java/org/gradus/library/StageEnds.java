package org.gradus.library;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.internal.reach.EndMoment;
import org.gradus.internal.reach.Scene;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Stage;
import org.gradus.rule.Condition;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Outcomes;
import org.gradus.rule.bounds.Presence;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.syntax.Action;

/**
 * Evaluates rules abstractly: no rule may stay unknown when it is evaluated after everything has
 * been told, and each can apply somewhere. A fault that a rule has in several stages is reported
 * once.
 */
final class StageEnds {

  private static final String AFTER_A_HOLD = " after a hold";

  private final Draft draft;
  private final Protocol protocol;
  private final Problems problems;
  private final Scene scene;
  private final Map<ProtocolRule, Finding> findings = new LinkedHashMap<>();

  /** What was found out about a rule in all its stages. */
  private static final class Finding {
    private final Map<String, Set<String>> unmeasured = new LinkedHashMap<>();
    private final Set<String> open = new LinkedHashSet<>();
    private String lacking = "";
    private boolean canHold;
  }

  StageEnds(Draft draft, Protocol protocol, Ways ways, Problems problems) {
    this.draft = draft;
    this.protocol = protocol;
    this.problems = problems;
    this.scene = new Scene(protocol, ways);
  }

  /**
   * Checks that readings are measured in time; and, when all else is sound, that every rule comes
   * to an answer.
   */
  void check(boolean sound) {
    if (!draft.isWhole("measure", "stages", "stage_end") || protocol.stages().isEmpty()) {
      return;
    }
    for (Stage stage : protocol.stages()) {
      for (EndMoment moment : scene.ends(stage).keySet()) {
        stageEnd(stage, moment, sound);
      }
    }
    findings.forEach(this::report);
    if (sound) {
      before();
      protocol.rules().anyTime().forEach(rule -> canHold(rule, scene.anyTime()));
      if (protocol.recovery().isPresent()) {
        protocol.rules().recovery().forEach(rule -> canHold(rule, scene.recovery()));
      }
    }
  }

  // A rule is looked at where those before it, if they end the stage, do not hold.
  private void stageEnd(Stage stage, EndMoment moment, boolean sound) {
    Box box = scene.end(stage, moment);
    String where = stage.id() + moment.words();
    for (ProtocolRule rule : protocol.rulesAtEndOf(stage)) {
      if (RuleLists.closes(rule.rule().sentence())) {
        return;
      }
      if (rule.rule().condition().isPresent()) {
        Condition condition = rule.rule().condition().get();
        Finding finding = findings.computeIfAbsent(rule, any -> new Finding());
        look(finding, condition, box, where, sound);
        if (rule.isFinish() || rule.action() instanceof Action.Advance) {
          box = condition.whereItFails(box);
        }
      }
    }
  }

  private void look(Finding finding, Condition condition, Box box, String where, boolean sound) {
    boolean measured = true;
    for (Demand demand : KnownFacts.demands(condition)) {
      boolean unread = scene.isReading(demand) && presence(demand, box) == Presence.UNKNOWN;
      // What is never read was not read a minute earlier either; that need not be said.
      if (unread && (measured || demand.aspect() == Aspect.VALUE)) {
        finding.unmeasured.computeIfAbsent(phrase(demand), any -> new LinkedHashSet<>()).add(where);
        measured = false;
      }
    }
    Outcomes outcomes = condition.outcomes(box);
    finding.canHold |= !measured || !sound || !outcomes.neverHolds() || condition.dependsOnWord();
    if (sound && measured && outcomes.canBeUnknown()) {
      finding.open.add(where);
      finding.lacking = finding.open.size() == 1 ? lacking(condition, box) : finding.lacking;
    }
  }

  private void report(ProtocolRule rule, Finding finding) {
    finding.unmeasured.forEach(
        (reading, stages) ->
            problems.add(rule.rule().sentence().span(), Code.G406, reading, listed(stages)));
    if (!finding.open.isEmpty()) {
      problems.add(rule.rule().sentence().span(), Code.G405, listed(finding.open), finding.lacking);
    }
    if (!finding.canHold) {
      problems.add(rule.rule().sentence().span(), Code.G411, rule.rule().text());
    }
  }

  // What is so at the planned end of a stage need not be said again of its holds.
  private static String listed(Set<String> stages) {
    return stages.stream()
        .filter(stage -> !stage.endsWith(AFTER_A_HOLD) || !stages.contains(planned(stage)))
        .collect(Collectors.joining(", "));
  }

  private static String planned(String stage) {
    return stage.substring(0, stage.length() - AFTER_A_HOLD.length());
  }

  // An unknown defer is waited for, and one that nothing can settle would be waited for in vain.
  private void before() {
    Box box = scene.before();
    for (ProtocolRule rule : protocol.rules().before()) {
      Optional<Condition> condition = rule.rule().condition();
      boolean waits = !(rule.action() instanceof Action.Caution);
      if (waits && condition.filter(when -> when.outcomes(box).canBeUnknown()).isPresent()) {
        problems.add(
            rule.rule().sentence().span(), Code.G405, "before", lacking(condition.get(), box));
      }
      canHold(rule, scene.anyTime());
    }
  }

  // One that the word of a setting switches off may hold with another word.
  private void canHold(ProtocolRule rule, Box box) {
    if (rule.rule()
        .condition()
        .filter(when -> !when.dependsOnWord() && when.outcomes(box).neverHolds())
        .isPresent()) {
      problems.add(rule.rule().sentence().span(), Code.G411, rule.rule().text());
    }
  }

  // A reading that is too old, or none of which lies in the stretch, is as good as none.
  private String phrase(Demand demand) {
    String stretch = Math.round(demand.seconds()) + " s";
    return switch (demand.aspect()) {
      case EARLIER -> KnownFacts.earlier(demand);
      case AVERAGE -> demand.subject() + " of the last " + stretch;
      case HIGHEST, LOWEST, EVER, COUNT, COMPLETED -> demand.subject();
      case LINE_MEAN_X, LINE_MEAN_Y, LINE_SLOPE, INTERPOLATED -> demand.subject();
      case VALUE ->
          protocol
              .schedule()
              .lineOf(demand.subject())
              .flatMap(line -> line.validFor())
              .map(limit -> demand.subject() + " no older than " + limit.toSeconds() + " s")
              .orElse(demand.subject());
    };
  }

  private Presence presence(Demand demand, Box box) {
    return box.cell(protocol.wiring().layout().demands().indexOf(demand)).presence();
  }

  private String lacking(Condition condition, Box box) {
    List<String> lacking =
        KnownFacts.demands(condition).stream()
            .filter(demand -> presence(demand, box) != Presence.KNOWN)
            .map(Demand::subject)
            .distinct()
            .toList();
    return lacking.isEmpty()
        ? "a division by zero or the like is possible"
        : "list it under for: needs, measure it, defer without it, or guard the rule with known(...): "
            + String.join(", ", lacking);
  }
}
