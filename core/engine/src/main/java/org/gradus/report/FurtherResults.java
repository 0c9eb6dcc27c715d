package org.gradus.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Interval;
import org.gradus.capacity.Result;
import org.gradus.report.Block.Answer;
import org.gradus.report.Block.Items;
import org.gradus.report.Block.Paragraph;
import org.gradus.report.Block.Table;
import org.gradus.words.FileText;
import org.gradus.words.Joined;

/** What came out besides an aerobic capacity, and what is expected of such a person. */
final class FurtherResults {

  private final Capacity capacity;
  private final References references;
  private final Words words;

  FurtherResults(Capacity capacity, References references, Words words) {
    this.capacity = capacity;
    this.references = references;
    this.words = words;
  }

  /** The results of a protocol that declares some. */
  Optional<Section> section() {
    return capacity.results().isEmpty() ? Optional.empty() : Optional.of(written());
  }

  private Section written() {
    List<Block> blocks = new ArrayList<>();
    Result first = first();
    if (first.isAvailable()) {
      blocks.add(
          new Answer(
              words.say(Joined.COLON, new FileText(first.title()), first.message()),
              first
                  .interval()
                  .map(around -> words.say(ReportMessage.INTERVAL, shown(around)))
                  .orElseGet(() -> words.say(ReportMessage.ERROR_NOT_KNOWN))));
    } else {
      blocks.add(
          new Paragraph(
              words.say(Joined.COLON, new FileText(first.title()), first.message()) + "."));
    }
    List<List<String>> rows = new ArrayList<>();
    List<String> remarks = new ArrayList<>();
    for (Result result : capacity.results()) {
      rows.add(row(result));
      if (!result.assumes().isEmpty()) {
        remarks.add(remark(result, new FileText(result.assumes())));
      }
      result.warnings().forEach(caution -> remarks.add(remark(result, caution)));
    }
    boolean expected =
        capacity.results().stream().anyMatch(result -> result.reference().isPresent());
    blocks.add(
        Table.of(
            words.say(
                expected ? ReportMessage.RESULTS_EXPECTED_TABLE : ReportMessage.RESULTS_TABLE),
            words.heads(
                ReportMessage.RESULT,
                ReportMessage.VALUE,
                ReportMessage.INTERVAL_HEAD,
                ReportMessage.EXPECTED,
                ReportMessage.METHOD),
            rows));
    if (!remarks.isEmpty()) {
      blocks.add(new Items(remarks));
    }
    return Section.first(words.say(ReportMessage.RESULTS_TITLE), blocks);
  }

  private String shown(Interval around) {
    return words.say(around.message());
  }

  private String remark(Result result, Object said) {
    return words.say(Joined.COLON, new FileText(result.title()), said);
  }

  private Result first() {
    return capacity.results().stream()
        .filter(Result::isAvailable)
        .findFirst()
        .orElse(capacity.results().get(0));
  }

  private List<String> row(Result result) {
    return List.of(
        words.text(result.title()),
        words.say(result.message()),
        result.interval().map(this::shown).orElse(""),
        result
            .reference()
            .map(
                expected ->
                    words.say(expected.value().rounded(1)) + references.behind(expected.source()))
            .orElse(""),
        result.calculation() + references.behind(result.source()));
  }
}
