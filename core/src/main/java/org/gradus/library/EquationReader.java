package org.gradus.library;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.knowledge.Citation;
import org.gradus.knowledge.CostEquation;
import org.gradus.knowledge.Equations;
import org.gradus.knowledge.MaxHeartRate;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Quantity;

/** Reads files of equations. */
final class EquationReader {

  private final Texts texts;

  EquationReader(Texts texts) {
    this.texts = texts;
  }

  Equations read(Keys keys) {
    Map<String, CostEquation> costs = new LinkedHashMap<>();
    for (YamlNode item : keys.items("costs")) {
      Keys.of(item, "an oxygen cost", texts.problems())
          .flatMap(this::cost)
          .ifPresent(cost -> costs.put(cost.id(), cost));
    }
    Map<String, MaxHeartRate> rates = new LinkedHashMap<>();
    for (YamlNode item : keys.items("max_heart_rates")) {
      Keys.of(item, "a maximal heart rate", texts.problems())
          .flatMap(this::maxHeartRate)
          .ifPresent(rate -> rates.put(rate.id(), rate));
    }
    return new Equations(costs, rates);
  }

  private Optional<CostEquation> cost(Keys keys) {
    Optional<Scalar> id = keys.needText("id").filter(texts::isName);
    List<Scalar> of = keys.texts("of");
    Optional<Expression> uptake = keys.needText("uptake").flatMap(texts::expression);
    Optional<Expression> range = keys.text("range").flatMap(texts::expression);
    Optional<Quantity> spread = keys.text("sd").flatMap(texts::quantity);
    Citation source = source(keys);
    keys.done();
    of.forEach(load -> texts.word(load, List.copyOf(StageReader.LOADS.keySet()), word -> word));
    if (id.isEmpty() || uptake.isEmpty()) {
      return Optional.empty();
    }
    List<String> loads = of.stream().map(Scalar::value).toList();
    return Optional.of(
        new CostEquation(id.get().value(), loads, uptake.get(), range, spread, source));
  }

  private Optional<MaxHeartRate> maxHeartRate(Keys keys) {
    Optional<Scalar> id = keys.needText("id").filter(texts::isName);
    Optional<Expression> rate = keys.needText("rate").flatMap(texts::expression);
    Optional<Quantity> spread = keys.needText("sd").flatMap(texts::quantity);
    Optional<Expression> onlyWhen = keys.text("only_when").flatMap(texts::expression);
    Citation source = source(keys);
    keys.done();
    if (id.isEmpty() || rate.isEmpty() || spread.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new MaxHeartRate(id.get().value(), rate.get(), spread.get(), onlyWhen, source));
  }

  // An equation without a source is worth nothing to a scientist.
  private Citation source(Keys keys) {
    Optional<Scalar> key = keys.text("source");
    if (key.isEmpty()) {
      texts.problems().add(keys.span(), Code.G303, keys.what(), "source");
    }
    return RuleReader.withNote(texts.source(key), Texts.string(keys.text("note")));
  }
}
