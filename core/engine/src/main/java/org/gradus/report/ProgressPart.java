package org.gradus.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Change;
import org.gradus.capacity.Estimate;
import org.gradus.capacity.Interval;
import org.gradus.knowledge.Repeat;
import org.gradus.protocol.Attribute;
import org.gradus.report.Block.Paragraph;
import org.gradus.report.Block.Picture;
import org.gradus.report.Block.Table;
import org.gradus.report.Block.Warning;
import org.gradus.unit.Unit;

/** Several tests of one person beside each other: results over time, and what has changed. */
final class ProgressPart {

  /**
   * One of the tests.
   *
   * @param about who, when and where, as far as the host said so
   * @param capacity its results
   */
  record Test(Particulars about, Capacity capacity) {}

  private final List<Test> tests;
  private final List<Repeat> repeats;
  private final References references;

  /**
   * The part of these tests.
   *
   * @param tests the earliest first; the last is the one of the report
   * @param repeats how much repeated answers differ
   */
  ProgressPart(List<Test> tests, List<Repeat> repeats, References references) {
    this.tests = List.copyOf(tests);
    this.repeats = List.copyOf(repeats);
    this.references = references;
  }

  Section section() {
    List<Block> blocks = new ArrayList<>();
    blocks.add(new Paragraph(verdict()));
    if (areOfDifferentPeople()) {
      blocks.add(
          new Warning(
              "The identities or sexes in these tests differ. Check that all of them are of one"
                  + " person before you compare them."));
    }
    chart().ifPresent(chart -> blocks.add(new Picture(chart)));
    blocks.add(table());
    return Section.first("Results over time", blocks);
  }

  private String verdict() {
    return "Since the test before, the capacity has changed by "
        + Words.sentence(words(Change.between(before(tests.size() - 1), now(), repeats)));
  }

  private Capacity now() {
    return tests.get(tests.size() - 1).capacity();
  }

  private Capacity before(int place) {
    return tests.get(place - 1).capacity();
  }

  private boolean areOfDifferentPeople() {
    return tests.stream().flatMap(test -> test.about().identity().stream()).distinct().count() > 1
        || tests.stream()
                .flatMap(test -> test.capacity().facts().person().value(Attribute.SEX).stream())
                .distinct()
                .count()
            > 1;
  }

  private String words(Change change) {
    if (change instanceof Change.Judged judged) {
      return judged + references.behind(judged.source());
    }
    return "an amount that cannot be judged: " + change;
  }

  private Optional<ScaleChart> chart() {
    List<ScaleChart.Span> spans = new ArrayList<>();
    for (int i = 0; i < tests.size(); i++) {
      String label = label(i);
      tests
          .get(i)
          .capacity()
          .headline()
          .ifPresent(
              best -> spans.add(ResultPart.span(label + ": " + best.vo2max().rounded(1), best)));
    }
    return spans.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new ScaleChart(
                "Aerobic capacity in each test",
                Unit.ML_PER_KG_PER_MINUTE.symbol(),
                spans,
                List.of()));
  }

  private String label(int place) {
    return tests.get(place).about().date().orElse("test " + (place + 1));
  }

  private Table table() {
    List<List<String>> rows = new ArrayList<>();
    for (int i = 0; i < tests.size(); i++) {
      Capacity capacity = tests.get(i).capacity();
      Optional<Estimate.Available> best = capacity.headline();
      rows.add(
          List.of(
              label(i),
              capacity.facts().title(),
              best.map(found -> found.vo2max().rounded(1).toString()).orElse("none"),
              best.flatMap(Estimate.Available::interval).map(Interval::toString).orElse("–"),
              i == 0 ? "–" : words(Change.between(before(i), capacity, repeats))));
    }
    return Table.of(
        "Each test, the earliest first",
        List.of(
            "test", "protocol", "aerobic capacity", "95 % interval", "change since the one before"),
        rows);
  }
}
