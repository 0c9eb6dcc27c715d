package org.gradus.library;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.library.Draft.Include;
import org.gradus.protocol.AuthorNotes.Dropped;
import org.gradus.protocol.AuthorNotes.Replaced;
import org.gradus.protocol.LoadComponent;

/**
 * Joins a protocol with the rule sets it includes. Included rules come first, in order; the
 * protocol's own names replace included ones; two sets that define the same name clash unless the
 * protocol defines it too; left-out rules are dropped.
 */
final class Includes {

  private final Shelf shelf;
  private final Problems problems;

  Includes(Shelf shelf, Problems problems) {
    this.shelf = shelf;
    this.problems = problems;
  }

  Draft resolve(Draft own) {
    Draft whole = new Draft(own.header);
    whole.torn = own.torn;
    Map<Include, Draft> included = new LinkedHashMap<>();
    Set<String> ids = new HashSet<>();
    for (Include include : own.includes) {
      if (!ids.add(include.id())) {
        problems.add(include.where(), Code.G306, "the include " + include.id());
      } else if (shelf.sets.containsKey(include.id())) {
        Draft set = without(include, shelf.sets.get(include.id()));
        included.put(include, set);
        include
            .without()
            .forEach(
                rule -> whole.dropped.add(new Dropped(rule.value(), include.id(), rule.where())));
        join(whole, set);
      } else {
        missing(include);
        whole.torn = true;
      }
    }
    join(whole, own);
    joinNames(whole, included, own);
    whole.stageEnd.addAll(own.stageEnd);
    whole.stages.addAll(own.stages);
    whole.cost.addAll(own.cost);
    whole.maxHeartRate.addAll(own.maxHeartRate);
    whole.estimates.addAll(own.estimates);
    whole.results.addAll(own.results);
    whole.headline = own.headline;
    whole.cautions.addAll(own.cautions);
    whole.unmeasured = own.unmeasured;
    whole.accepted.addAll(own.accepted);
    whole.ergometer = own.ergometer;
    whole.purpose = own.purpose;
    whole.eligibility = onlyOne(own, included, draft -> draft.eligibility, "for");
    whole.brake = onlyOne(own, included, draft -> draft.brake, "brake");
    whole.recovery = onlyOne(own, included, draft -> draft.recovery, "recovery");
    replaced(whole, included, own);
    equipment(whole);
    return whole;
  }

  // What a load is and can be counts wherever it is set, included or not.
  private void equipment(Draft whole) {
    for (Placed<Equipment.Load> load : shelf.equipment.declarations(whole)) {
      if (!shelf.equipment.isStandard(load)) {
        whole.files.add(load.where().file());
        LoadComponent component = load.value().component();
        load.value()
            .range()
            .ifPresent(
                range ->
                    whole.loads.putIfAbsent(component.name(), new Placed<>(load.where(), range)));
      }
    }
    Optional.ofNullable(shelf.equipment.ergometers().get(whole.ergometer))
        .filter(declared -> !shelf.equipment.isStandard(declared))
        .ifPresent(declared -> whole.files.add(declared.where().file()));
  }

  // Ages within those of a set take nothing from what it says.
  private static void replaced(Draft whole, Map<Include, Draft> included, Draft own) {
    included.forEach(
        (include, set) -> {
          boolean ages =
              own.eligibility.isPresent()
                  && set.eligibility
                      .filter(theirs -> own.eligibility.get().isWiderThan(theirs))
                      .isPresent();
          if (ages) {
            whole.replaced.add(new Replaced("for", include.id(), own.place("for")));
          }
          if (own.recovery.isPresent() && set.recovery.isPresent()) {
            whole.replaced.add(new Replaced("recovery", include.id(), own.place("recovery")));
          }
          names(whole, include, set.settings, own.settings, "setting");
          names(whole, include, set.defines, own.defines, "define");
          names(whole, include, set.questions, own.questions, "input");
          names(whole, include, set.signs, own.signs, "sign");
          names(whole, include, set.signals, own.signals, "signal");
          names(whole, include, set.loads, own.loads, "load");
          names(whole, include, set.scales, own.scales, "scale");
          names(whole, include, set.tables, own.tables, "table");
        });
  }

  private static <T> void names(
      Draft whole,
      Include include,
      Map<String, Placed<T>> theirs,
      Map<String, Placed<T>> own,
      String what) {
    own.forEach(
        (name, placed) -> {
          if (theirs.containsKey(name)) {
            whole.replaced.add(new Replaced(what + " " + name, include.id(), placed.where()));
          }
        });
  }

  private void missing(Include include) {
    if (!shelf.torn) {
      Set<String> ids = shelf.sets.keySet();
      String otherwise =
          ids.isEmpty()
              ? "there are no rule sets"
              : "the rule sets are " + String.join(", ", ids.stream().sorted().toList());
      String help =
          Optional.ofNullable(shelf.kinds.get(include.id()))
              .map(Includes::otherKind)
              .orElseGet(() -> problems.help(include.id(), ids, otherwise));
      problems.add(include.where(), Code.G309, "rule set", include.id(), help);
    }
  }

  private static String otherKind(String kind) {
    return kind.equals("protocol")
        ? "it is a protocol, and only rule sets are included; put what both need into a rule set"
        : "it is a file of the kind " + kind + ", which counts everywhere without being included";
  }

  /** A set without the rules that an include leaves out. */
  private Draft without(Include include, Draft set) {
    Set<String> dropped = new HashSet<>();
    include.without().forEach(name -> dropped.add(name.value()));
    Set<String> present = new HashSet<>();
    set.rules().forEach(rule -> present.add(rule.id()));
    for (Placed<String> name : include.without()) {
      if (!present.contains(name.value()) && set.isWhole()) {
        String otherwise =
            present.isEmpty()
                ? "it has no rules, and nothing but rules can be left out"
                : "its rules are " + String.join(", ", present.stream().sorted().toList());
        String help = problems.help(name.value(), present, otherwise);
        problems.add(name.where(), Code.G309, "rule in " + include.id(), name.value(), help);
      }
    }
    if (dropped.isEmpty()) {
      return set;
    }
    Draft left = new Draft(set.header);
    left.torn = set.torn;
    join(left, set);
    joinNames(left, Map.of(), set);
    left.eligibility = set.eligibility;
    left.brake = set.brake;
    left.recovery =
        set.recovery.map(
            r -> new RecoveryDraft(r.stages(), r.measure(), kept(r.rules(), dropped), r.atMost()));
    for (List<RuleDraft> rules : List.of(left.before, left.anyTime, left.result)) {
      rules.removeIf(rule -> dropped.contains(rule.id()));
    }
    return left;
  }

  private static List<RuleDraft> kept(List<RuleDraft> rules, Set<String> dropped) {
    return rules.stream().filter(rule -> !dropped.contains(rule.id())).toList();
  }

  private static void join(Draft whole, Draft part) {
    whole.files.addAll(part.files);
    whole.torn |= part.torn;
    whole.lost.addAll(part.lost);
    whole.faulty.addAll(part.faulty);
    whole.sources.addAll(part.sources);
    whole.before.addAll(part.before);
    whole.anyTime.addAll(part.anyTime);
    whole.result.addAll(part.result);
    whole.baselines.addAll(part.baselines);
    whole.measure.addAll(part.measure);
    whole.cues.addAll(part.cues);
  }

  private void joinNames(Draft whole, Map<Include, Draft> included, Draft own) {
    put(whole, included, own, draft -> draft.settings);
    put(whole, included, own, draft -> draft.defines);
    put(whole, included, own, draft -> draft.questions);
    put(whole, included, own, draft -> draft.signs);
    put(whole, included, own, draft -> draft.signals);
    put(whole, included, own, draft -> draft.loads);
    put(whole, included, own, draft -> draft.scales);
    put(whole, included, own, draft -> draft.tables);
    put(whole, included, own, draft -> draft.usual);
  }

  private <T> void put(
      Draft whole,
      Map<Include, Draft> included,
      Draft own,
      Function<Draft, Map<String, Placed<T>>> part) {
    Map<String, String> from = new LinkedHashMap<>();
    included.forEach(
        (include, set) ->
            part.apply(set)
                .forEach(
                    (name, value) -> {
                      String other = from.putIfAbsent(name, include.id());
                      if (other != null && !part.apply(own).containsKey(name)) {
                        problems.add(include.where(), Code.G312, name, other, include.id());
                      }
                      part.apply(whole).putIfAbsent(name, value);
                    }));
    part.apply(whole).putAll(part.apply(own));
  }

  private <T> Optional<T> onlyOne(
      Draft own, Map<Include, Draft> included, Function<Draft, Optional<T>> part, String key) {
    if (part.apply(own).isPresent()) {
      return part.apply(own);
    }
    List<Include> having = new ArrayList<>();
    included.forEach((include, set) -> part.apply(set).ifPresent(there -> having.add(include)));
    if (having.size() > 1) {
      problems.add(having.get(1).where(), Code.G312, key, having.get(0).id(), having.get(1).id());
    }
    return having.stream().findFirst().map(included::get).flatMap(part);
  }
}
