package org.gradus.trial;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.SourceFile;
import org.gradus.knowledge.Citation;
import org.gradus.library.Keys;
import org.gradus.library.YamlNode;
import org.gradus.library.YamlNode.Entry;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.rule.Formula;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Layout;
import org.gradus.rule.check.Symbol;
import org.gradus.rule.check.Vocabulary;
import org.gradus.rule.syntax.RuleText;
import org.gradus.trial.Distribution.Shape;
import org.gradus.unit.Kind;
import org.gradus.unit.QuantityRange;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;

/** Reads a file that says what virtual people are like. */
final class PopulationReader {

  private static final String PRACTICE = "practice";
  private static final String EFFORT = "effort";

  private final Problems problems = new Problems();
  private final Layout.Builder layout = new Layout.Builder();
  private final Map<String, Citation> sources = new LinkedHashMap<>();
  private final Map<Trait, Distribution> traits = new EnumMap<>(Trait.class);

  private PopulationReader() {
    for (Trait trait : Trait.values()) {
      layout.slot(Demand.value(trait.word(), trait.type()));
    }
  }

  static Population read(SourceFile file) {
    PopulationReader reader = new PopulationReader();
    Optional<Population> read = Keys.of(file, reader.problems).map(reader::population);
    reader.problems.throwIfAny();
    return read.orElseThrow();
  }

  private Population population(Keys keys) {
    keys.needText("format").ifPresent(text -> is(text, "1"));
    keys.needText("kind").ifPresent(text -> is(text, "population"));
    String title = keys.needText("title").map(Scalar::value).orElse("");
    for (Entry entry : keys.entries("sources")) {
      keys.scalar(entry.value(), entry.key().value())
          .ifPresent(
              text ->
                  sources.put(
                      entry.key().value(), new Citation(entry.key().value(), text.value())));
    }
    Map<String, Entry> given = new LinkedHashMap<>();
    keys.entries("traits").forEach(entry -> given.put(entry.key().value(), entry));
    Map<String, Symbol> known = new LinkedHashMap<>();
    for (Trait trait : Trait.values()) {
      Entry entry = given.remove(trait.word());
      if (entry == null) {
        problems.add(keys.start(), Code.G303, "a population", "trait " + trait.word());
      } else {
        Keys.of(entry.value(), "a trait", problems)
            .flatMap(inner -> distribution(trait, inner, Vocabulary.of(known)))
            .ifPresent(distribution -> traits.put(trait, distribution));
      }
      // A trait may rest on those before it.
      Demand demand = Demand.value(trait.word(), trait.type());
      known.put(trait.word(), new Symbol.Datum(demand, Symbol.Role.FACT));
    }
    List<String> words = List.of(Trait.values()).stream().map(Trait::word).toList();
    given
        .values()
        .forEach(
            entry ->
                problems.add(
                    entry.key().span(),
                    Code.G302,
                    entry.key().value(),
                    "traits",
                    problems.help(
                        entry.key().value(), words, "the traits are " + String.join(", ", words))));
    Symbol effort = new Symbol.Datum(Demand.value(EFFORT, Type.NUMBER), Symbol.Role.FACT);
    int effortSlot = layout.slot(Demand.value(EFFORT, Type.NUMBER));
    Map<String, Integer> loads = new LinkedHashMap<>();
    List<Physiology.LoadCost> costs = new ArrayList<>();
    for (YamlNode item : keys.items("costs")) {
      Keys.of(item, "a cost", problems)
          .flatMap(inner -> cost(inner, known, loads))
          .ifPresent(costs::add);
    }
    Map<String, Symbol> withEffort = new LinkedHashMap<>(known);
    withEffort.put(EFFORT, effort);
    Map<String, Physiology.Modelled> signals =
        modelled(keys.entries("signals"), "a signal", List.of(Kind.values()), withEffort);
    Map<String, Physiology.Modelled> done =
        modelled(keys.entries("done"), "a time until it is done", List.of(Kind.TIME), known);
    keys.done();
    Layout built = layout.build();
    return new Population(
        title, built, traits, new Physiology(built, loads, effortSlot, costs, signals, done));
  }

  // Its loads are named with their units, since a protocol may have loads of its own.
  private Optional<Physiology.LoadCost> cost(
      Keys keys, Map<String, Symbol> traits, Map<String, Integer> loads) {
    Map<String, Symbol> known = new LinkedHashMap<>(traits);
    List<String> of = new ArrayList<>();
    for (Entry entry : keys.entries("of")) {
      String name = entry.key().value();
      Optional<Scalar> text = keys.scalar(entry.value(), name);
      Optional<Unit> unit = text.flatMap(word -> Unit.named(word.value()));
      if (text.isPresent() && unit.isEmpty()) {
        problems.add(
            text.get().span(), Code.G305, text.get().value(), "a unit", "write a unit such as W");
      }
      unit.ifPresent(
          shown -> {
            Demand demand = Demand.value(name, new Type.Measure(shown.kind()));
            loads.put(name, layout.slot(demand));
            known.put(name, new Symbol.Datum(demand, Symbol.Role.FACT));
            of.add(name);
          });
    }
    Optional<Formula> uptake =
        keys.needText("uptake").flatMap(text -> formula(text, Kind.UPTAKE, Vocabulary.of(known)));
    Optional<Citation> source = keys.needText("source").flatMap(this::source);
    keys.text("note");
    keys.done();
    return uptake.isPresent() && !of.isEmpty()
        ? source.map(named -> new Physiology.LoadCost(of, uptake.get(), named))
        : Optional.empty();
  }

  private Map<String, Physiology.Modelled> modelled(
      List<Entry> entries, String what, List<Kind> kinds, Map<String, Symbol> known) {
    Map<String, Physiology.Modelled> all = new LinkedHashMap<>();
    for (Entry entry : entries) {
      Keys.of(entry.value(), what, problems)
          .flatMap(keys -> modelled(keys, kinds, Vocabulary.of(known)))
          .ifPresent(one -> all.put(entry.key().value(), one));
    }
    return all;
  }

  private Optional<Physiology.Modelled> modelled(Keys keys, List<Kind> kinds, Vocabulary known) {
    Optional<Formula> value = keys.needText("value").flatMap(text -> formula(text, kinds, known));
    Optional<Formula> sd =
        keys.text("sd")
            .flatMap(text -> formula(text, value.map(f -> List.of(f.kind())).orElse(kinds), known));
    Optional<Citation> source = keys.needText("source").flatMap(this::source);
    keys.text("note");
    keys.done();
    return value.isPresent()
        ? source.map(named -> new Physiology.Modelled(value.get(), sd, named))
        : Optional.empty();
  }

  private void is(Scalar text, String wanted) {
    if (!text.value().equals(wanted)) {
      problems.add(text.span(), Code.G305, text.value(), wanted, "write " + wanted);
    }
  }

  private Optional<Distribution> distribution(Trait trait, Keys keys, Vocabulary known) {
    Map<Shape, Scalar> shapes = new EnumMap<>(Shape.class);
    for (Shape shape : Shape.values()) {
      keys.text(shape.name().toLowerCase(java.util.Locale.ROOT))
          .ifPresent(text -> shapes.put(shape, text));
    }
    Optional<Scalar> spread = keys.text("sd");
    Optional<Scalar> limits = keys.text("within");
    Optional<Citation> source = keys.needText("source").flatMap(this::source);
    keys.text("note");
    keys.done();
    if (shapes.size() != 1) {
      problems.add(
          keys.start(),
          Code.G304,
          "one shape",
          shapes.size() + " of them",
          "write one of fixed, chance, uniform, normal, lognormal");
      return Optional.empty();
    }
    Map.Entry<Shape, Scalar> shape = shapes.entrySet().iterator().next();
    Kind kind = trait.kind().orElse(Kind.NUMBER);
    boolean fits = (shape.getKey() == Shape.CHANCE) == trait.kind().isEmpty();
    if (!fits) {
      problems.add(
          shape.getValue().span(),
          Code.G305,
          shape.getKey().name().toLowerCase(java.util.Locale.ROOT),
          "a shape of " + trait.word(),
          trait.kind().isEmpty() ? "write chance: 50 %" : "give it a measure");
    }
    boolean even = shape.getKey() == Shape.UNIFORM;
    Optional<QuantityRange> within =
        (even ? Optional.of(shape.getValue()) : limits).flatMap(text -> range(text, kind));
    Optional<Formula> mean = even ? Optional.empty() : formula(shape.getValue(), kind, known);
    Optional<Formula> sd = spread.flatMap(text -> formula(text, kind, known));
    boolean needsSpread = shape.getKey() == Shape.NORMAL || shape.getKey() == Shape.LOGNORMAL;
    if (needsSpread && spread.isEmpty()) {
      problems.add(keys.start(), Code.G303, trait.word(), "sd");
    }
    boolean whole = even ? within.isPresent() : mean.isPresent();
    return whole && fits
        ? source.map(named -> new Distribution(shape.getKey(), mean, sd, within, named))
        : Optional.empty();
  }

  private Optional<Citation> source(Scalar key) {
    if (key.value().equals(PRACTICE)) {
      return Optional.of(Citation.PRACTICE);
    }
    Optional<Citation> named = Optional.ofNullable(sources.get(key.value()));
    if (named.isEmpty()) {
      List<String> keys = new ArrayList<>(sources.keySet());
      keys.add(PRACTICE);
      problems.add(
          key.span(),
          Code.G309,
          "source",
          key.value(),
          problems.help(key.value(), keys, "the sources are " + String.join(", ", keys)));
    }
    return named;
  }

  private Optional<Formula> formula(Scalar text, Kind kind, Vocabulary known) {
    return formula(text, List.of(kind), known);
  }

  private Optional<Formula> formula(Scalar text, List<Kind> kinds, Vocabulary known) {
    return RuleText.expression(text.span(), problems)
        .flatMap(body -> Formula.of(body, kinds, known, layout, problems));
  }

  private Optional<QuantityRange> range(Scalar text, Kind kind) {
    Optional<QuantityRange> range = RuleText.range(text.span(), problems);
    if (range.filter(ends -> ends.low().kind() != kind || ends.high().kind() != kind).isPresent()) {
      problems.add(
          text.span(),
          Code.G305,
          text.value(),
          kind.phrase() + " from the lowest to the highest",
          "give it in units such as " + kind.base().symbol());
      return Optional.empty();
    }
    return range;
  }
}
