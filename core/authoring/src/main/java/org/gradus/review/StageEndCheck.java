package org.gradus.review;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gradus.internal.reach.EndMoment;
import org.gradus.internal.reach.Scene;
import org.gradus.protocol.Paths;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Stage;
import org.gradus.review.Sampler.Wanted;
import org.gradus.rule.Condition;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.syntax.Action;

/** Rules that never come to word, that hold nowhere, and that contradict each other. */
final class StageEndCheck {

  private final Protocol protocol;
  private final Sampler sampler;
  private final List<ReviewFinding> found;
  private final Scene scene;

  /** What was seen of one rule at all moments at which it is looked at. */
  private static final class Seen {
    private Optional<Frame> holds = Optional.empty();
    private boolean decides;
    private boolean closesBefore;
    private final Set<ProtocolRule> shadowedBy = new LinkedHashSet<>();
    private final Map<ProtocolRule, Frame> beside = new LinkedHashMap<>();
    private int points;
  }

  StageEndCheck(Protocol protocol, Sampler sampler, List<ReviewFinding> found) {
    this.protocol = protocol;
    this.sampler = sampler;
    this.found = found;
    this.scene = new Scene(protocol, Paths.of(protocol));
  }

  void look() {
    Map<ProtocolRule, Seen> seen = new LinkedHashMap<>();
    for (Stage stage : protocol.stages()) {
      scene.ends(stage).forEach((moment, held) -> look(stage, moment, held, seen));
    }
    seen.forEach(this::report);
    protocol.rules().before().forEach(rule -> holdsSomewhere(rule, scene.before()));
    protocol.rules().anyTime().forEach(rule -> holdsSomewhere(rule, scene.anyTime()));
    protocol.rules().recovery().forEach(rule -> holdsSomewhere(rule, scene.anyTime()));
    protocol.rules().result().forEach(rule -> holdsSomewhere(rule, scene.anyTime()));
  }

  private void look(Stage stage, EndMoment moment, int held, Map<ProtocolRule, Seen> all) {
    Box box = scene.end(stage, moment);
    List<ProtocolRule> before = new ArrayList<>();
    for (ProtocolRule rule : protocol.rulesAtEndOf(stage)) {
      Seen seen = all.computeIfAbsent(rule, any -> new Seen());
      int sampled = sampler.points();
      boolean left = !(rule.action() instanceof Action.Hold hold) || held < hold.times();
      boolean judges = isJudging(rule);
      if (left && (!seen.decides || seen.holds.isEmpty())) {
        Optional<Frame> holds = sampler.find(box, wanted(rule, true));
        if (seen.holds.isEmpty()) {
          seen.holds = holds;
        }
        if (judges && holds.isPresent() && !seen.decides) {
          comesToWord(rule, seen, box, holds.get(), before);
        }
      }
      if (left && judges) {
        beside(rule, seen, box, before);
        // A change that is used up is passed over: what follows it decides then.
        if (!(rule.action() instanceof Action.Change)) {
          before.add(rule);
        }
      }
      seen.points += sampler.points() - sampled;
    }
  }

  private void comesToWord(
      ProtocolRule rule, Seen seen, Box box, Frame holds, List<ProtocolRule> before) {
    List<Wanted> wanted = new ArrayList<>(wanted(rule, true));
    before.forEach(earlier -> wanted.addAll(wanted(earlier, false)));
    seen.closesBefore |= !before.isEmpty();
    boolean unconditional = before.stream().anyMatch(any -> any.rule().condition().isEmpty());
    seen.decides = !unconditional && sampler.find(box, wanted).isPresent();
    before.stream().filter(earlier -> isHolding(earlier, holds)).forEach(seen.shadowedBy::add);
  }

  // What always holds contradicts nothing: it is what is left. To finish before going on is the
  // safe order, so only what goes on before something else is looked at.
  private void beside(ProtocolRule rule, Seen seen, Box box, List<ProtocolRule> before) {
    for (ProtocolRule earlier : before) {
      boolean compared =
          rule.rule().condition().isPresent()
              && earlier.rule().condition().isPresent()
              && earlier.action() instanceof Action.Advance
              && !says(earlier).equals(says(rule));
      if (compared && !seen.beside.containsKey(earlier)) {
        List<Wanted> both = new ArrayList<>(wanted(rule, true));
        both.addAll(wanted(earlier, true));
        // An earlier rule that holds only where the later one does is a special case of it.
        List<Wanted> alone = new ArrayList<>(wanted(rule, false));
        alone.addAll(wanted(earlier, true));
        sampler
            .find(box, both)
            .filter(frame -> sampler.find(box, alone).isPresent())
            .ifPresent(frame -> seen.beside.put(earlier, frame));
      }
    }
  }

  private static String says(ProtocolRule rule) {
    Action action = rule.action();
    return action instanceof Action.Advance advance
        ? "advance " + advance.to().map(to -> to.text()).orElse("")
        : action.word();
  }

  private static boolean isJudging(ProtocolRule rule) {
    return !rule.action().isAside();
  }

  private static boolean isHolding(ProtocolRule rule, Frame frame) {
    return wanted(rule, true).stream().allMatch(want -> want.condition().test(frame) == Truth.TRUE);
  }

  private static List<Wanted> wanted(ProtocolRule rule, boolean answer) {
    return rule.rule().condition().map(when -> List.of(new Wanted(when, answer))).orElse(List.of());
  }

  private void report(ProtocolRule rule, Seen seen) {
    if (seen.holds.isEmpty()) {
      neverHolds(rule, seen.points);
    } else if (isJudging(rule) && seen.closesBefore && !seen.decides) {
      String by = ids(seen.shadowedBy);
      found.add(
          new ReviewFinding(
              Check.SHADOWED_RULE,
              rule.id(),
              rule.rule().sentence().span(),
              rule.id() + " never decides: " + by + " before it holds wherever it does",
              shown(seen.holds.get(), List.of(rule)),
              seen.points));
    } else if (!seen.beside.isEmpty()) {
      Map.Entry<ProtocolRule, Frame> first = seen.beside.entrySet().iterator().next();
      found.add(
          new ReviewFinding(
              Check.OVERLAPPING_RULES,
              rule.id(),
              rule.rule().sentence().span(),
              rule.id() + " can hold together with " + ids(seen.beside.keySet()) + " before it",
              shown(first.getValue(), List.of(first.getKey(), rule)),
              0));
    }
  }

  private static String ids(Set<ProtocolRule> rules) {
    return rules.isEmpty()
        ? "a rule"
        : String.join(", ", rules.stream().map(ProtocolRule::id).toList());
  }

  private String shown(Frame frame, List<ProtocolRule> rules) {
    List<Condition> conditions =
        rules.stream().flatMap(rule -> rule.rule().condition().stream()).toList();
    return sampler.shown(frame, conditions);
  }

  private void holdsSomewhere(ProtocolRule rule, Box box) {
    int before = sampler.points();
    if (rule.rule().condition().isPresent() && sampler.find(box, wanted(rule, true)).isEmpty()) {
      neverHolds(rule, sampler.points() - before);
    }
  }

  // What hangs on a chosen word may hold with another one.
  private void neverHolds(ProtocolRule rule, int points) {
    if (rule.rule().condition().filter(when -> !when.anatomy().words().isEmpty()).isPresent()) {
      return;
    }
    found.add(
        new ReviewFinding(
            Check.NEVER_HOLDS,
            rule.id(),
            rule.rule().sentence().span(),
            rule.id() + " held on none of the readings it was tried on",
            "",
            points));
  }
}
