package org.gradus.library;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.knowledge.Citation;
import org.gradus.knowledge.CostEquation;
import org.gradus.knowledge.EnergyEquation;
import org.gradus.knowledge.MaxHeartRate;
import org.gradus.knowledge.Proviso;
import org.gradus.knowledge.Reckoning;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.rule.Condition;
import org.gradus.rule.Formula;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Layout;
import org.gradus.rule.check.Vocabulary;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;

/**
 * Reads files of equations. An equation speaks of the person and the load only, so that it can be
 * checked without a protocol that uses it.
 */
final class EquationReader {

  static final List<Kind> UPTAKES = List.of(Kind.UPTAKE, Kind.ABSOLUTE_UPTAKE);

  private final ScalarParser texts;
  private final Problems problems;
  private final Shelf shelf;

  EquationReader(ScalarParser texts, Shelf shelf) {
    this.texts = texts;
    this.problems = texts.problems();
    this.shelf = shelf;
  }

  /** All equations of a sound shelf, to be worked out by themselves. */
  static Map<String, Equation> equations(Shelf shelf) {
    Map<String, Equation> equations = new LinkedHashMap<>();
    for (CostEquation cost : shelf.costs.values()) {
      equations.put(
          cost.id(),
          equation(
              shelf.equipment,
              cost.id(),
              cost.uptake(),
              UPTAKES,
              cost.range(),
              cost.spread(),
              cost.source()));
    }
    for (MaxHeartRate rate : shelf.maxHeartRates.values()) {
      equations.put(
          rate.id(),
          equation(
              shelf.equipment,
              rate.id(),
              rate.rate(),
              List.of(Kind.HEART_RATE),
              rate.onlyWhen(),
              Optional.of(rate.spread()),
              rate.source()));
    }
    Map<String, Kind> known = PersonNames.measures(shelf.equipment);
    known.put("uptake", Kind.UPTAKE);
    for (EnergyEquation energy : shelf.energies.values()) {
      equations.put(
          energy.id(),
          new Equation(
              energy.id(),
              energy.rate(),
              known,
              Optional.empty(),
              Optional.empty(),
              energy.source()));
    }
    return Map.copyOf(equations);
  }

  // The texts have been checked, so that planning them finds nothing wrong.
  private static Equation equation(
      Equipment equipment,
      String id,
      Expression text,
      List<Kind> kinds,
      Optional<Expression> range,
      Optional<Quantity> sd,
      Citation source) {
    Problems none = new Problems();
    Vocabulary names = PersonNames.withLoads(equipment);
    return new Equation(
        id,
        Reckoning.of(text, kinds, names, none).orElseThrow(),
        PersonNames.measures(equipment),
        range.map(limits -> Proviso.of(limits, names, none).orElseThrow()),
        sd,
        source);
  }

  void read(Keys keys) {
    for (YamlNode item : keys.items("costs")) {
      Keys.of(item, "an oxygen cost", problems).ifPresent(this::cost);
    }
    for (YamlNode item : keys.items("max_heart_rates")) {
      Keys.of(item, "a maximal heart rate", problems).ifPresent(this::maxHeartRate);
    }
    new SpreadReader(texts, shelf).read(keys);
    new EnergyReader(texts, shelf).read(keys);
    new ResultReader(texts, shelf).read(keys);
  }

  private void cost(Keys keys) {
    int before = problems.count();
    Optional<Scalar> id = keys.needText("id").filter(texts::isName);
    List<Scalar> of = keys.needTexts("of");
    Optional<Expression> uptake = keys.needText("uptake").flatMap(texts::expression);
    Optional<Expression> range = keys.text("range").flatMap(texts::expression);
    Optional<Quantity> spread =
        keys.text("sd")
            .flatMap(
                text ->
                    texts.spread(text, List.of(Kind.NUMBER, Kind.UPTAKE, Kind.ABSOLUTE_UPTAKE)));
    Citation source = texts.neededSource(keys);
    keys.done();
    List<String> known = List.copyOf(shelf.equipment.loads().keySet());
    of.forEach(load -> texts.word(load, known, word -> word));
    of.stream()
        .filter(load -> shelf.equipment.isOfAProtocol(load.value()))
        .forEach(
            load ->
                texts.notA(
                    load,
                    "a load that a rule set declares",
                    "move its declaration from the protocol to a rule set, so that every protocol"
                        + " can use the equation"));
    uptake.flatMap(text -> formula(text, UPTAKES)).ifPresent(planned -> loads(of, planned));
    range.ifPresent(this::condition);
    if (id.isPresent()) {
      boolean sound = problems.count() == before && isNew("cost", id.get());
      if (sound && uptake.isPresent()) {
        List<String> loads = of.stream().map(Scalar::value).toList();
        shelf.costs.put(
            id.get().value(),
            new CostEquation(
                id.get().value(), loads, uptake.get(), range, spread, Optional.empty(), source));
      } else {
        shelf.faulty.add(id.get().value());
      }
    }
  }

  // Stages are checked for the loads the list names; one it leaves out would be found missing only
  // in a test.
  private void loads(List<Scalar> of, Formula uptake) {
    Set<String> used =
        uptake.demands().stream()
            .map(Demand::subject)
            .filter(shelf.equipment.loads()::containsKey)
            .collect(Collectors.toCollection(TreeSet::new));
    Set<String> named = of.stream().map(Scalar::value).collect(Collectors.toSet());
    if (!of.isEmpty() && !named.equals(used)) {
      texts.notA(
          of.get(0),
          "all that this cost is made of",
          "write of: [" + String.join(", ", used) + "]");
    }
  }

  private void maxHeartRate(Keys keys) {
    int before = problems.count();
    Optional<Scalar> id = keys.needText("id").filter(texts::isName);
    Optional<Scalar> title = keys.text("title");
    Optional<Expression> rate = keys.needText("rate").flatMap(texts::expression);
    Optional<Quantity> spread =
        keys.needText("sd").flatMap(text -> texts.spread(text, List.of(Kind.HEART_RATE)));
    Optional<Expression> onlyWhen = keys.text("only_when").flatMap(texts::expression);
    Citation source = texts.neededSource(keys);
    List<Scalar> replaces = keys.texts("replaces");
    keys.done();
    title.ifPresent(this::isOwnTitle);
    rate.ifPresent(text -> formula(text, List.of(Kind.HEART_RATE)));
    onlyWhen.ifPresent(this::condition);
    if (id.isPresent()) {
      boolean sound = problems.count() == before && isNew("maximal heart rate", id.get());
      sound &= replaces.stream().allMatch(old -> isNew("maximal heart rate", old));
      if (sound && rate.isPresent() && spread.isPresent()) {
        String name = id.get().value();
        shelf.maxHeartRates.put(
            name,
            new MaxHeartRate(
                name,
                title.map(Scalar::value).orElse(name),
                rate.get(),
                spread.get(),
                onlyWhen,
                source,
                replaces.stream().map(Scalar::value).toList()));
      } else {
        shelf.faulty.add(id.get().value());
      }
    }
  }

  // Reports name an equation by its title alone, so no two may share one.
  private void isOwnTitle(Scalar title) {
    boolean taken =
        shelf.maxHeartRates.values().stream()
            .anyMatch(
                other -> other.title().equals(title.value()) || other.id().equals(title.value()));
    if (taken) {
      problems.add(title.span(), Code.G306, "the title " + title.value());
    } else if (title.value().isBlank() || title.value().contains(":")) {
      texts.notA(title, "a title", "write a few words without a colon, as in 220 - age");
    }
  }

  private boolean isNew(String what, Scalar id) {
    boolean taken =
        shelf.costs.containsKey(id.value())
            || shelf.maxHeartRates.containsKey(id.value())
            || shelf.energies.containsKey(id.value())
            || shelf.replacement(id.value()).isPresent();
    boolean kept = Choices.KEPT.contains(id.value());
    if (taken) {
      problems.add(id.span(), Code.G306, "the " + what + " " + id.value());
    } else if (kept) {
      texts.notA(id, "a name", "this word has a meaning of its own in choices; choose another");
    }
    return !taken && !kept;
  }

  private Optional<Formula> formula(Expression text, List<Kind> kinds) {
    return Formula.of(
        text, kinds, PersonNames.withLoads(shelf.equipment), new Layout.Builder(), problems);
  }

  private void condition(Expression text) {
    Condition.of(text, PersonNames.withLoads(shelf.equipment), new Layout.Builder(), problems);
  }
}
