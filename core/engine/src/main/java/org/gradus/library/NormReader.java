package org.gradus.library;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.knowledge.Citation;
import org.gradus.knowledge.NormTable;
import org.gradus.knowledge.NormTable.Ages;
import org.gradus.knowledge.NormTable.Classes;
import org.gradus.knowledge.NormTable.NormClass;
import org.gradus.knowledge.NormTable.Percentile;
import org.gradus.knowledge.NormTable.Percentiles;
import org.gradus.knowledge.NormTable.Rows;
import org.gradus.knowledge.NormTable.Stretch;
import org.gradus.knowledge.Proviso;
import org.gradus.library.YamlNode.Entry;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** Reads tables of reference values. Rows that do not fit the age groups are refused. */
final class NormReader {

  private final ScalarParser texts;
  private final Problems problems;
  private final Shelf shelf;

  NormReader(ScalarParser texts, Shelf shelf) {
    this.texts = texts;
    this.problems = texts.problems();
    this.shelf = shelf;
  }

  void read(Keys keys) {
    for (YamlNode item : keys.items("tables")) {
      Keys.of(item, "a table of norms", problems).ifPresent(this::table);
    }
  }

  private void table(Keys keys) {
    int before = problems.count();
    Optional<Scalar> id = keys.needText("id").filter(texts::isName);
    Optional<Scalar> of = keys.needText("of").filter(texts::isName);
    Optional<Unit> unit = keys.needText("in").flatMap(this::unit);
    Optional<Proviso> when =
        keys.needText("when")
            .flatMap(texts::expression)
            .flatMap(text -> Proviso.of(text, PersonNames.alone(), problems));
    Optional<String> ergometer = keys.text("ergometer").map(Scalar::value);
    Optional<String> protocol = keys.text("protocol").map(Scalar::value);
    Optional<String> better =
        keys.needText("better")
            .flatMap(word -> texts.word(word, List.of("higher", "lower"), w -> w));
    String edition = ScalarParser.string(keys.needText("edition"));
    List<Ages> ages = ages(keys.needTexts("ages"));
    List<Entry> percentiles = keys.entries("percentiles");
    List<Entry> classes = keys.entries("classes");
    List<String> notes = keys.texts("notes").stream().map(Scalar::value).toList();
    Citation source = texts.neededSource(keys);
    keys.done();
    if (percentiles.isEmpty() == classes.isEmpty() && problems.count() == before) {
      problems.add(keys.start(), Code.G303, "a table of norms", "percentiles or classes");
    }
    if (unit.isEmpty() || better.isEmpty()) {
      return;
    }
    boolean higher = better.get().equals("higher");
    Rows rows =
        classes.isEmpty()
            ? percentiles(percentiles, ages.size(), unit.get(), higher)
            : classes(classes, ages.size(), unit.get());
    if (problems.count() == before) {
      NormTable table =
          new NormTable(
              id.orElseThrow().value(),
              of.orElseThrow().value(),
              unit.get(),
              when.orElseThrow(),
              ergometer,
              protocol,
              higher,
              edition,
              ages,
              rows,
              notes,
              source);
      if (shelf.norms.putIfAbsent(table.id(), table) != null) {
        problems.add(id.get().span(), Code.G306, "the table " + table.id());
      }
    }
  }

  private Optional<Unit> unit(Scalar text) {
    Optional<Unit> unit = Unit.named(text.value());
    if (unit.isEmpty()) {
      texts.notA(text, "a unit", "write one such as mL/kg/min or bpm");
    }
    return unit;
  }

  private List<Ages> ages(List<Scalar> groups) {
    List<Ages> ages = new ArrayList<>();
    for (Scalar group : groups) {
      List<Integer> ends = whole(group);
      boolean next = ages.isEmpty() || ages.get(ages.size() - 1).to() < ends.get(0);
      if (ends.size() == 2 && ends.get(0) <= ends.get(1) && next) {
        ages.add(new Ages(ends.get(0), ends.get(1)));
      } else {
        texts.notA(group, "an age group", "write first and last year as 20-29, in rising order");
      }
    }
    return ages;
  }

  private static List<Integer> whole(Scalar text) {
    if (!text.value().matches("[0-9]{1,3}-[0-9]{1,3}")) {
      return List.of(Integer.MAX_VALUE);
    }
    int dash = text.value().indexOf('-');
    return List.of(
        Integer.parseInt(text.value().substring(0, dash)),
        Integer.parseInt(text.value().substring(dash + 1)));
  }

  private Percentiles percentiles(List<Entry> entries, int ages, Unit unit, boolean higher) {
    List<Percentile> rows = new ArrayList<>();
    for (Entry entry : entries) {
      boolean percent = entry.key().value().matches("[1-9][0-9]?");
      if (!percent) {
        texts.notA(entry.key(), "a percentile", "write a whole number from 1 to 99");
      }
      List<Quantity> values =
          cells(entry, ages).stream().flatMap(cell -> number(cell, unit).stream()).toList();
      if (percent && values.size() == ages) {
        rows.add(new Percentile(Integer.parseInt(entry.key().value()), values));
      }
    }
    rows.sort(Comparator.comparing(Percentile::percent));
    for (int i = 1; i < rows.size(); i++) {
      rising(entries.get(0), rows.get(i - 1), rows.get(i), higher);
    }
    return new Percentiles(rows);
  }

  // A digit that was mistyped mostly breaks the order.
  private void rising(Entry first, Percentile lower, Percentile upper, boolean higher) {
    for (int i = 0; i < lower.values().size(); i++) {
      double rise = upper.values().get(i).amount() - lower.values().get(i).amount();
      if (higher ? rise < 0 : rise > 0) {
        texts.notA(
            first.key(),
            "the start of percentiles in order",
            "compare "
                + lower.values().get(i)
                + " at "
                + lower.percent()
                + " with "
                + upper.values().get(i)
                + " at "
                + upper.percent());
      }
    }
  }

  private Classes classes(List<Entry> entries, int ages, Unit unit) {
    List<NormClass> rows = new ArrayList<>();
    boolean numbered = isNumber(entries.get(0));
    for (Entry entry : entries) {
      List<Optional<Stretch>> values =
          cells(entry, ages).stream().map(cell -> stretch(cell, unit)).toList();
      String key = entry.key().value();
      boolean isNext = key.equals(Integer.toString(rows.size() + 1));
      if (numbered != isNumber(entry) || (numbered && !isNext)) {
        texts.notA(
            entry.key(),
            "the next class",
            "name every class, or number them 1, 2, 3, the best first");
      }
      String name = numbered ? "class " + key + " of " + entries.size() : key;
      rows.add(new NormClass(name, values));
    }
    return new Classes(rows, numbered);
  }

  private static boolean isNumber(Entry entry) {
    return entry.key().value().matches("[0-9]+");
  }

  private Optional<Stretch> stretch(Scalar cell, Unit unit) {
    if (cell.value().equals("none")) {
      return Optional.empty();
    }
    List<Integer> ends = whole(cell);
    if (ends.size() == 2 && ends.get(0) <= ends.get(1)) {
      Function<Integer, Quantity> quantity = end -> Quantity.of(end, unit);
      return Optional.of(new Stretch(quantity.apply(ends.get(0)), quantity.apply(ends.get(1))));
    }
    texts.notA(cell, "a stretch", "write the lower and the upper end as 79-84, or none");
    return Optional.empty();
  }

  private List<Scalar> cells(Entry entry, int ages) {
    List<Scalar> cells =
        Keys.itemsOf(entry.value()).stream()
            .filter(Scalar.class::isInstance)
            .map(Scalar.class::cast)
            .toList();
    if (cells.size() != ages) {
      texts.notA(
          entry.key(),
          "a row with a figure for each age group",
          "it has " + cells.size() + " figures for " + ages + " age groups");
      return List.of();
    }
    return cells;
  }

  private Optional<Quantity> number(Scalar cell, Unit unit) {
    if (cell.value().matches("[0-9]{1,4}([.][0-9]{1,3})?")) {
      return Optional.of(Quantity.of(Double.parseDouble(cell.value()), unit));
    }
    texts.notA(cell, "a figure", "write it without a unit");
    return Optional.empty();
  }
}
