package org.gradus.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Result;
import org.gradus.report.Block.Answer;
import org.gradus.report.Block.Items;
import org.gradus.report.Block.Paragraph;
import org.gradus.report.Block.Table;

/** What came out besides an aerobic capacity, and what is expected of such a person. */
final class FurtherResults {

  private final Capacity capacity;
  private final References references;

  FurtherResults(Capacity capacity, References references) {
    this.capacity = capacity;
    this.references = references;
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
              first.title() + ": " + first.words(),
              first
                  .interval()
                  .map(around -> "95 % interval " + around)
                  .orElse("its error is not known")));
    } else {
      blocks.add(new Paragraph(first.title() + ": " + first.words() + "."));
    }
    List<List<String>> rows = new ArrayList<>();
    List<String> remarks = new ArrayList<>();
    for (Result result : capacity.results()) {
      rows.add(row(result));
      if (!result.assumes().isEmpty()) {
        remarks.add(result.title() + ": " + result.assumes());
      }
      result.cautions().forEach(caution -> remarks.add(result.title() + ": " + caution));
    }
    boolean expected =
        capacity.results().stream().anyMatch(result -> result.reference().isPresent());
    blocks.add(
        Table.of(
            expected ? "Results with what is expected of such a person" : "Each result",
            List.of("result", "value", "95 % interval", "expected", "method"),
            rows));
    if (!remarks.isEmpty()) {
      blocks.add(new Items(remarks));
    }
    return Section.first("Results", blocks);
  }

  private Result first() {
    return capacity.results().stream()
        .filter(Result::isAvailable)
        .findFirst()
        .orElse(capacity.results().get(0));
  }

  private List<String> row(Result result) {
    return List.of(
        result.title(),
        result.words(),
        result.interval().map(Object::toString).orElse(""),
        result
            .reference()
            .map(expected -> expected.value().rounded(1) + references.behind(expected.source()))
            .orElse(""),
        result.calculation() + references.behind(result.source()));
  }
}
