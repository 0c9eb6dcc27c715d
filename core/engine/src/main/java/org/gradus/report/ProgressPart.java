package org.gradus.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Change;
import org.gradus.capacity.Estimate;
import org.gradus.knowledge.Repeat;
import org.gradus.protocol.Attribute;
import org.gradus.report.Block.Paragraph;
import org.gradus.report.Block.Picture;
import org.gradus.report.Block.Table;
import org.gradus.report.Block.Warning;
import org.gradus.unit.Unit;
import org.gradus.words.Joined;

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
  private final Words words;

  /**
   * The part of these tests.
   *
   * @param tests the earliest first; the last is the one of the report
   * @param repeats how much repeated answers differ
   */
  ProgressPart(List<Test> tests, List<Repeat> repeats, References references, Words words) {
    this.tests = List.copyOf(tests);
    this.repeats = List.copyOf(repeats);
    this.references = references;
    this.words = words;
  }

  Section section() {
    List<Block> blocks = new ArrayList<>();
    blocks.add(new Paragraph(verdict()));
    if (areOfDifferentPeople()) {
      blocks.add(
          new Warning(words.say(ReportMessage.CAUTION), words.say(ReportMessage.DIFFERENT_PEOPLE)));
    }
    chart().ifPresent(chart -> blocks.add(new Picture(chart)));
    blocks.add(table());
    return Section.first(words.say(ReportMessage.PROGRESS_TITLE), blocks);
  }

  private String verdict() {
    return Words.sentence(
        words.say(
            ReportMessage.CHANGED_BY,
            said(Change.between(before(tests.size() - 1), now(), repeats))));
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

  private String said(Change change) {
    if (change instanceof Change.Judged judged) {
      return words.say(judged.message()) + references.behind(judged.source());
    }
    return words.say(ReportMessage.CANNOT_BE_JUDGED, change.message());
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
              best ->
                  spans.add(
                      ResultPart.span(
                          words.say(Joined.COLON, label, best.vo2max().rounded(1)), best)));
    }
    return spans.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new ScaleChart(
                words.say(ReportMessage.PROGRESS_CHART),
                Unit.ML_PER_KG_PER_MINUTE.symbol(),
                spans,
                List.of(),
                words));
  }

  private String label(int place) {
    return tests
        .get(place)
        .about()
        .when(words)
        .orElseGet(() -> words.say(ReportMessage.TEST_NUMBER, place + 1));
  }

  private Table table() {
    List<List<String>> rows = new ArrayList<>();
    for (int i = 0; i < tests.size(); i++) {
      Capacity capacity = tests.get(i).capacity();
      Optional<Estimate.Available> best = capacity.headline();
      rows.add(
          List.of(
              label(i),
              words.text(capacity.facts().title()),
              best.map(found -> words.say(found.vo2max().rounded(1)))
                  .orElseGet(() -> words.say(ReportMessage.NONE)),
              best.flatMap(Estimate.Available::interval)
                  .map(around -> words.say(around.message()))
                  .orElse("–"),
              i == 0 ? "–" : said(Change.between(before(i), capacity, repeats))));
    }
    return Table.of(
        words.say(ReportMessage.PROGRESS_TABLE),
        words.heads(
            ReportMessage.TEST,
            ReportMessage.PROTOCOL,
            ReportMessage.AEROBIC_CAPACITY,
            ReportMessage.INTERVAL_HEAD,
            ReportMessage.CHANGE_SINCE),
        rows);
  }
}
