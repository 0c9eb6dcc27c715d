package org.gradus.library;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.gradus.diagnostic.Code;
import org.gradus.knowledge.Citation;
import org.gradus.library.YamlNode.Entry;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Ergometer;
import org.gradus.protocol.LoadComponent;
import org.gradus.protocol.LoadRange;
import org.gradus.unit.Kind;
import org.gradus.unit.QuantityRange;
import org.gradus.unit.Unit;

/** Reads what loads are made of, what they can be, and on what tests are done. */
final class EquipmentReader {

  private static final String UNIT = "unit";
  private static final String TITLE = "title";
  private static final String RANGE = "range";

  private final ScalarParser texts;

  EquipmentReader(ScalarParser texts) {
    this.texts = texts;
  }

  /** The loads of a file: components that it declares, and ranges of those that are known. */
  void loads(List<Entry> entries, Draft draft) {
    for (Entry entry : entries) {
      Optional<LoadRange> range =
          declares(entry) ? load(entry).flatMap(Equipment.Load::range) : range(entry);
      range.ifPresent(
          ends -> draft.loads.put(entry.key().value(), new Placed<>(entry.key().span(), ends)));
    }
  }

  /** The ergometers of a file; they are known already. */
  void ergometers(List<Entry> entries) {
    entries.forEach(this::ergometer);
  }

  private static boolean declares(Entry entry) {
    return entry.value() instanceof YamlNode.Mapping keys
        && keys.entries().stream().anyMatch(one -> one.key().value().equals(UNIT));
  }

  /** The component that an entry declares, if it names a unit. */
  Optional<Equipment.Load> load(Entry entry) {
    return declares(entry)
        ? Keys.of(entry.value(), "a load", texts.problems())
            .flatMap(keys -> load(entry.key(), keys))
            .filter(load -> isNew(entry, "load", texts.equipment().loads()))
        : Optional.empty();
  }

  private Optional<Equipment.Load> load(Scalar key, Keys keys) {
    String name = key.value();
    Optional<Unit> unit = keys.needText(UNIT).flatMap(texts::unit);
    String title = keys.text(TITLE).map(Scalar::value).orElse(words(name));
    Optional<QuantityRange> range =
        keys.text(RANGE).flatMap(text -> unit.flatMap(of -> range(text, of)));
    Citation source = texts.source(keys);
    keys.done();
    boolean named = texts.isName(key) && isFree(key);
    return unit.filter(of -> named)
        .map(
            of ->
                new Equipment.Load(
                    new LoadComponent(name, title, of, source),
                    range.map(ends -> new LoadRange(name, ends, source))));
  }

  // What a load that is declared elsewhere can be.
  private Optional<LoadRange> range(Entry entry) {
    String name = entry.key().value();
    Optional<Unit> unit = Optional.ofNullable(texts.equipment().ranged().get(name));
    if (unit.isEmpty()) {
      unknown(entry.key());
    }
    return unit.flatMap(
        of ->
            Keys.of(entry.value(), "a load", texts.problems())
                .flatMap(keys -> range(name, of, keys)));
  }

  private Optional<LoadRange> range(String name, Unit unit, Keys keys) {
    Optional<QuantityRange> range = keys.needText(RANGE).flatMap(text -> range(text, unit));
    keys.text(TITLE);
    keys.text(UNIT);
    Citation source = texts.source(keys);
    keys.done();
    keys.idle(
        TITLE,
        "a load that is declared elsewhere",
        "leave it out, or declare the load with a unit");
    return range.map(ends -> new LoadRange(name, ends, source));
  }

  // A slope may lead downhill and a trunk lean back; nothing else that is set can be below zero.
  private Optional<QuantityRange> range(Scalar text, Unit unit) {
    Optional<QuantityRange> range = texts.range(text, unit.kind());
    boolean share = unit == Unit.PERCENT;
    if (share && range.filter(ends -> !isShare(ends)).isPresent()) {
      texts.notA(text, "a range in %", "write both ends with %");
      return Optional.empty();
    } else if (!share
        && unit.kind() != Kind.ANGLE
        && range.filter(ends -> ends.low().base() < 0).isPresent()) {
      texts.notA(text, "a range from zero up", "write it without the sign");
      return Optional.empty();
    }
    return range;
  }

  private static boolean isShare(QuantityRange ends) {
    return ends.low().unit() == Unit.PERCENT && ends.high().unit() == Unit.PERCENT;
  }

  private void unknown(Scalar key) {
    Set<String> known = texts.equipment().ranged().keySet();
    String otherwise =
        "the loads are "
            + String.join(", ", known)
            + "; declare another one with a unit, as in { unit: W, range: 0 W to 500 W }";
    String help = texts.problems().help(key.value(), known, otherwise);
    texts.problems().add(key.span(), Code.G309, "load", key.value(), help);
  }

  /** The ergometer that an entry declares. */
  Optional<Ergometer> ergometer(Entry entry) {
    return Keys.of(entry.value(), "an ergometer", texts.problems())
        .flatMap(keys -> ergometer(entry.key(), keys))
        .filter(one -> isNew(entry, "ergometer", texts.equipment().ergometers()));
  }

  private Optional<Ergometer> ergometer(Scalar id, Keys keys) {
    boolean named = texts.isId(id);
    Optional<String> title = keys.needText(TITLE).map(Scalar::value);
    List<Scalar> loads = keys.texts("loads");
    Optional<String> posture = texts.posture(keys);
    boolean carries = texts.yes(keys.needText("carries_body_mass"), false);
    Citation source = texts.source(keys);
    keys.done();
    List<String> known = List.copyOf(texts.equipment().loads().keySet());
    List<String> sound =
        loads.stream()
            .flatMap(load -> texts.word(load, known, word -> word).stream())
            .distinct()
            .toList();
    return title
        .filter(words -> named)
        .map(words -> new Ergometer(id.value(), words, sound, posture, carries, source));
  }

  private <T> boolean isNew(Entry entry, String what, Map<String, Placed<T>> declared) {
    Optional<String> other = Equipment.elsewhere(declared, entry);
    other.ifPresent(
        file ->
            texts
                .problems()
                .add(
                    entry.key().span(),
                    Code.G306,
                    "the " + what + " " + entry.key().value() + " (also in " + file + ")"));
    return other.isEmpty();
  }

  // A stage says more than loads, and rules know more names than those of loads.
  private boolean isFree(Scalar name) {
    Set<String> taken = new TreeSet<>(StageReader.KEYS);
    for (Attribute attribute : Attribute.values()) {
      taken.add(attribute.word());
    }
    taken.addAll(Names.OWN);
    boolean free = !taken.contains(name.value());
    if (!free) {
      texts.notA(name, "a free name", "it means something else already; choose another");
    }
    return free;
  }

  private static String words(String name) {
    String words = name.replace('_', ' ');
    return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
  }
}
