package org.gradus.library;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.knowledge.Band;
import org.gradus.knowledge.Band.Measure;
import org.gradus.knowledge.Citation;
import org.gradus.knowledge.CostEquation;
import org.gradus.knowledge.EnergyEquation;
import org.gradus.knowledge.Exercise;
import org.gradus.knowledge.Extent;
import org.gradus.knowledge.IntensityBands;
import org.gradus.knowledge.IntensityMethod;
import org.gradus.knowledge.Proviso;
import org.gradus.knowledge.Reckoning;
import org.gradus.knowledge.WeeklyVolume;
import org.gradus.library.YamlNode.Entry;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.rule.check.Vocabulary;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.QuantityRange;

/**
 * Reads a file of intensity bands. It names equations and energies of other files, so it is read
 * after them.
 */
final class IntensityReader {

  private static final Vocabulary NAMES = names();
  private static final List<Kind> INTENSITIES = List.of(Kind.HEART_RATE, Kind.UPTAKE);

  private final ScalarParser texts;
  private final Problems problems;
  private final Shelf shelf;
  private final Header header;

  private static Vocabulary names() {
    Map<String, Kind> names = new LinkedHashMap<>(IntensityBands.ABILITIES);
    names.put("share", Kind.NUMBER);
    return PersonNames.with(names);
  }

  IntensityReader(ScalarParser texts, Shelf shelf, Header header) {
    this.texts = texts;
    this.problems = texts.problems();
    this.shelf = shelf;
    this.header = header;
  }

  void read(Keys keys) {
    int before = problems.count();
    Optional<Scalar> scale = keys.needText("scale").filter(texts::isName);
    List<Band> bands = new ArrayList<>();
    keys.need("bands")
        .map(Keys::itemsOf)
        .ifPresent(
            items ->
                items.forEach(
                    item -> Keys.of(item, "a band", problems).ifPresent(k -> band(k, bands))));
    List<IntensityMethod> methods = new ArrayList<>();
    keys.items("methods")
        .forEach(item -> Keys.of(item, "a method", problems).ifPresent(k -> method(k, methods)));
    List<EnergyEquation> energies = new ArrayList<>();
    keys.needTexts("energy").forEach(name -> energy(name).ifPresent(energies::add));
    List<Exercise> exercises = new ArrayList<>();
    keys.items("exercises")
        .forEach(
            item -> Keys.of(item, "an exercise", problems).ifPresent(k -> exercise(k, exercises)));
    Optional<WeeklyVolume> volume =
        keys.keys("volume", "a weekly volume").flatMap(k -> volume(k, bands));
    List<String> cautions = keys.texts("cautions").stream().map(Scalar::value).toList();
    keys.done();
    if (energies.isEmpty() && problems.count() == before) {
      problems.add(keys.start(), Code.G303, "the intensity bands", "energy");
    }
    if (problems.count() == before) {
      shelf.bands.put(
          header.id(),
          new IntensityBands(
              header.id(),
              header.version(),
              header.title(),
              scale.orElseThrow().value(),
              bands,
              methods,
              energies,
              exercises,
              volume,
              cautions));
    }
  }

  private void band(Keys keys, List<Band> bands) {
    Optional<Scalar> id = keys.needText("id").filter(texts::isName);
    Map<Measure, Extent> extents = new EnumMap<>(Measure.class);
    for (Measure measure : Measure.values()) {
      Kind kind = measure == Measure.MET ? Kind.UPTAKE : Kind.NUMBER;
      keys.text(measure.name().toLowerCase(Locale.ROOT))
          .flatMap(text -> texts.extent(text, kind))
          .ifPresent(extent -> extents.put(measure, extent));
    }
    Citation source = texts.neededSource(keys);
    keys.done();
    id.ifPresent(name -> bands.add(new Band(name.value(), extents, source)));
  }

  private void method(Keys keys, List<IntensityMethod> methods) {
    Optional<Scalar> id = keys.needText("id").filter(texts::isName);
    Optional<Measure> of = keys.needText("of").flatMap(word -> texts.constant(word, Measure.class));
    Optional<Reckoning> formula =
        keys.needText("formula")
            .flatMap(texts::expression)
            .flatMap(text -> Reckoning.of(text, INTENSITIES, NAMES, problems));
    Optional<Proviso> onlyWhen =
        keys.text("only_when")
            .flatMap(texts::expression)
            .flatMap(text -> Proviso.of(text, NAMES, problems));
    Citation source = texts.neededSource(keys);
    keys.done();
    if (id.isPresent() && of.isPresent() && formula.isPresent()) {
      methods.add(new IntensityMethod(id.get().value(), of.get(), formula.get(), onlyWhen, source));
    }
  }

  private Optional<EnergyEquation> energy(Scalar name) {
    return shelved(name, "energy", shelf.energies);
  }

  private <T> Optional<T> shelved(Scalar name, String what, Map<String, T> shelved) {
    Optional<T> found = Optional.ofNullable(shelved.get(name.value()));
    if (found.isEmpty() && !shelf.torn && !shelf.faulty.contains(name.value())) {
      String help =
          problems.help(
              name.value(),
              shelved.keySet(),
              "there are " + String.join(", ", shelved.keySet().stream().sorted().toList()));
      problems.add(name.span(), Code.G309, what, name.value(), help);
    }
    return found;
  }

  private void exercise(Keys keys, List<Exercise> exercises) {
    Optional<Scalar> id = keys.needText("id").filter(texts::isName);
    String title = ScalarParser.string(keys.needText("title"));
    Optional<CostEquation> equation =
        keys.needText("equation").flatMap(name -> shelved(name, "oxygen cost", shelf.costs));
    Optional<Scalar> solve = keys.needText("solve");
    Optional<Scalar> between = keys.needText("between");
    Map<String, Quantity> set = new LinkedHashMap<>();
    for (Entry entry : keys.entries("where")) {
      given(entry).ifPresent(value -> set.put(entry.key().value(), value));
    }
    keys.done();
    if (equation.isEmpty() || id.isEmpty() || solve.isEmpty() || between.isEmpty()) {
      return;
    }
    List<String> loads = equation.get().loads();
    Optional<String> solved = texts.word(solve.get(), loads, word -> word);
    for (String load : loads) {
      boolean told = set.containsKey(load) != solved.filter(load::equals).isPresent();
      if (solved.isPresent() && !told) {
        texts.notA(
            solve.get(), "the one load that is left open", "give each other load under where");
        return;
      }
    }
    Optional<QuantityRange> range = solved.flatMap(load -> texts.range(between.get(), kind(load)));
    Vocabulary names = PersonNames.withLoads(shelf.equipment);
    Optional<Reckoning> cost =
        Reckoning.of(equation.get().uptake(), EquationReader.UPTAKES, names, problems);
    Optional<Proviso> stated =
        equation.get().range().flatMap(text -> Proviso.of(text, names, problems));
    if (range.isPresent() && cost.isPresent()) {
      exercises.add(
          new Exercise(
              id.get().value(),
              title,
              equation.get().id(),
              cost.get(),
              solved.orElseThrow(),
              range.get(),
              set,
              stated,
              equation.get().source()));
    }
  }

  private Kind kind(String load) {
    return shelf.equipment.load(load).orElseThrow().kind();
  }

  private Optional<Quantity> given(Entry entry) {
    return texts
        .word(entry.key(), List.copyOf(shelf.equipment.loads().keySet()), word -> word)
        .flatMap(
            load ->
                entry.value() instanceof Scalar text
                    ? texts.quantity(text, kind(load))
                    : Optional.empty());
  }

  private Optional<WeeklyVolume> volume(Keys keys, List<Band> bands) {
    Optional<QuantityRange> metMinutes =
        keys.needText("met_minutes").flatMap(text -> texts.range(text, Kind.NUMBER));
    Map<String, Quantity> minutes = new LinkedHashMap<>();
    List<String> ids = bands.stream().map(Band::id).toList();
    for (Entry entry : keys.entries("minutes")) {
      texts.word(entry.key(), ids, word -> word);
      if (entry.value() instanceof Scalar text) {
        texts.quantity(text, Kind.TIME).ifPresent(time -> minutes.put(entry.key().value(), time));
      }
    }
    Citation source = texts.neededSource(keys);
    keys.done();
    return metMinutes.map(range -> new WeeklyVolume(range, minutes, source));
  }
}
