package org.gradus.library;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Suggestion;
import org.gradus.library.Draft.Include;

/**
 * Joins a protocol with the rule sets it includes. Included rules come first, in order; the
 * protocol's own names replace included ones; two sets that define the same name clash unless the
 * protocol defines it too; left-out rules are dropped.
 */
final class Includes {

  private final Map<String, Draft> sets;
  private final Problems problems;

  Includes(Map<String, Draft> sets, Problems problems) {
    this.sets = sets;
    this.problems = problems;
  }

  Draft resolve(Draft own) {
    Draft whole = new Draft(own.header);
    List<Draft> included = new ArrayList<>();
    for (Include include : own.includes) {
      Draft set = sets.get(include.id());
      if (set == null) {
        String help =
            Suggestion.help(
                include.id(),
                sets.keySet(),
                "the rule sets are " + String.join(", ", sets.keySet().stream().sorted().toList()));
        problems.add(include.where(), Code.G309, "rule set", include.id(), help);
      } else {
        included.add(set);
        joinRules(whole, set, include);
      }
    }
    joinRules(whole, own, new Include(own.header.where(), own.header.id(), List.of()));
    joinNames(whole, included, own);
    whole.stageEnd.addAll(own.stageEnd);
    whole.stages.addAll(own.stages);
    whole.cost.addAll(own.cost);
    whole.maxHeartRate.addAll(own.maxHeartRate);
    whole.estimates.addAll(own.estimates);
    whole.cautions.addAll(own.cautions);
    whole.unmeasured = own.unmeasured;
    whole.ergometer = own.ergometer;
    whole.purpose = own.purpose;
    whole.eligibility = onlyOne(own, included, draft -> draft.eligibility, "for");
    whole.recovery = onlyOne(own, included, draft -> draft.recovery, "recovery");
    return whole;
  }

  private void joinRules(Draft whole, Draft part, Include include) {
    Set<String> dropped = new HashSet<>();
    include.without().forEach(name -> dropped.add(name.value()));
    Set<String> present = new HashSet<>();
    join(whole.before, part.before, dropped, present);
    join(whole.anyTime, part.anyTime, dropped, present);
    join(whole.result, part.result, dropped, present);
    whole.baselines.addAll(part.baselines);
    whole.measure.addAll(part.measure);
    for (var name : include.without()) {
      if (!present.contains(name.value())) {
        String help = Suggestion.help(name.value(), present, "look at the ids of that set");
        problems.add(name.where(), Code.G309, "rule in " + include.id(), name.value(), help);
      }
    }
  }

  private static void join(
      List<RuleDraft> whole, List<RuleDraft> part, Set<String> dropped, Set<String> present) {
    for (RuleDraft rule : part) {
      present.add(rule.id());
      if (!dropped.contains(rule.id())) {
        whole.add(rule);
      }
    }
  }

  private void joinNames(Draft whole, List<Draft> included, Draft own) {
    for (Draft part : included) {
      whole.sources.addAll(part.sources);
    }
    whole.sources.addAll(own.sources);
    put(whole.settings, included, own, draft -> draft.settings);
    put(whole.defines, included, own, draft -> draft.defines);
    put(whole.questions, included, own, draft -> draft.questions);
    put(whole.signs, included, own, draft -> draft.signs);
    put(whole.signals, included, own, draft -> draft.signals);
    put(whole.scales, included, own, draft -> draft.scales);
  }

  private <T> void put(
      Map<String, Placed<T>> whole,
      List<Draft> included,
      Draft own,
      Function<Draft, Map<String, Placed<T>>> part) {
    Map<String, Draft> from = new HashMap<>();
    for (Draft set : included) {
      part.apply(set)
          .forEach(
              (name, value) -> {
                Draft other = from.put(name, set);
                boolean clash = other != null && other != set && !part.apply(own).containsKey(name);
                if (clash) {
                  problems.add(value.where(), Code.G312, name, other.header.id(), set.header.id());
                }
                whole.put(name, value);
              });
    }
    whole.putAll(part.apply(own));
  }

  private <T> Optional<T> onlyOne(
      Draft own, List<Draft> included, Function<Draft, Optional<T>> part, String key) {
    if (part.apply(own).isPresent()) {
      return part.apply(own);
    }
    List<Draft> having = included.stream().filter(set -> part.apply(set).isPresent()).toList();
    if (having.size() > 1) {
      problems.add(
          own.header.where(), Code.G312, key, having.get(0).header.id(), having.get(1).header.id());
    }
    return having.isEmpty() ? Optional.empty() : part.apply(having.get(0));
  }
}
