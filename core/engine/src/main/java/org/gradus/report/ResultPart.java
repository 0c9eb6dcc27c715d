package org.gradus.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.capacity.Finding;
import org.gradus.capacity.Interval;
import org.gradus.capacity.Standing;
import org.gradus.knowledge.NormTable;
import org.gradus.protocol.Attribute;
import org.gradus.report.Block.Answer;
import org.gradus.report.Block.Cell;
import org.gradus.report.Block.Items;
import org.gradus.report.Block.Paragraph;
import org.gradus.report.Block.Picture;
import org.gradus.report.Block.Table;
import org.gradus.report.Block.Warning;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** What came out: the answer, how sure it is, whether it is plausible, where it stands. */
final class ResultPart {

  private static final String VO2MAX = "vo2max";

  private final Capacity capacity;
  private final List<NormTable> norms;
  private final List<Standing> standings;
  private final References references;

  ResultPart(Capacity capacity, List<NormTable> norms, References references) {
    this.capacity = capacity;
    this.norms = norms;
    this.standings = capacity.standings(norms);
    this.references = references;
  }

  /** A result as it stands in a picture. */
  static ScaleChart.Span span(String label, Estimate.Available best) {
    double value = best.vo2max().base();
    return new ScaleChart.Span(
        label,
        best.interval().map(around -> around.low().base()).orElse(value),
        value,
        best.interval().map(around -> around.high().base()).orElse(value));
  }

  Section answer() {
    List<Block> blocks = new ArrayList<>();
    Optional<Estimate.Available> best = capacity.headline();
    if (best.isPresent()) {
      Quantity vo2max = best.get().vo2max();
      Quantity mets = Quantity.ofBase(vo2max.base(), Unit.MET).rounded(1);
      blocks.add(
          new Answer(
              vo2max.rounded(1) + " (" + mets + ")",
              best.get()
                  .interval()
                  .map(around -> "95 % interval " + around)
                  .orElse("its error is not known")));
      blocks.add(
          new Paragraph(
              "Aerobic capacity, estimated by "
                  + best.get().id().replace('_', ' ')
                  + ". An estimate is not a measurement."));
      blocks.add(new Picture(chart(best.get())));
    } else {
      blocks.add(new Paragraph("No aerobic capacity could be estimated from this test."));
    }
    if (!standings.isEmpty()) {
      blocks.add(
          new Items(
              standings.stream()
                  .map(standing -> name(standing.table()) + ": " + standing.words())
                  .toList()));
    }
    if (!capacity.findings().isEmpty()) {
      blocks.add(
          new Warning(
              "Something about this result deserves a second look; see under plausibility."));
    }
    return Section.first("Result", blocks);
  }

  private ScaleChart chart(Estimate.Available best) {
    List<ScaleChart.Marks> rows = new ArrayList<>();
    for (Standing standing : standings) {
      if (standing.table().of().equals(VO2MAX)
          && standing.table().rows() instanceof NormTable.Percentiles percentiles) {
        group(standing.table())
            .ifPresent(group -> rows.add(marks(standing.table(), percentiles, group)));
      }
    }
    return new ScaleChart(
        rows.isEmpty()
            ? "The result with its interval"
            : "The result among people of the same sex and age",
        Unit.ML_PER_KG_PER_MINUTE.symbol(),
        List.of(span("this test", best)),
        rows);
  }

  private Optional<Integer> group(NormTable table) {
    Optional<Quantity> age = capacity.facts().person().value(Attribute.AGE);
    for (int group = 0; age.isPresent() && group < table.ages().size(); group++) {
      NormTable.Ages ages = table.ages().get(group);
      if (ages.from() <= age.get().base() && age.get().base() < ages.to() + 1) {
        return Optional.of(group);
      }
    }
    return Optional.empty();
  }

  private static ScaleChart.Marks marks(
      NormTable table, NormTable.Percentiles percentiles, int group) {
    NormTable.Ages ages = table.ages().get(group);
    return new ScaleChart.Marks(
        "percentiles, "
            + ages.from()
            + " to "
            + ages.to()
            + " years"
            + table.ergometer().map(on -> ", " + on).orElse("")
            + ", "
            + table.edition(),
        percentiles.rows().stream()
            .map(
                row ->
                    new ScaleChart.Mark(
                        Integer.toString(row.percent()), row.values().get(group).base()))
            .toList());
  }

  private static String name(NormTable table) {
    return (table.of().equals(VO2MAX) ? "aerobic capacity" : table.of().replace('_', ' '))
        + table.ergometer().map(on -> ", " + on).orElse("")
        + ", edition "
        + table.edition();
  }

  Section estimates() {
    List<Block> blocks = new ArrayList<>();
    List<List<String>> rows = new ArrayList<>();
    for (Estimate estimate : capacity.estimates()) {
      String name =
          estimate.id().replace('_', ' ') + (estimate.secondLook() ? " (second look)" : "");
      String source = references.number(estimate.source());
      if (estimate instanceof Estimate.Available available) {
        String around = available.interval().map(Interval::toString).orElse("not known");
        rows.add(
            List.of(
                name,
                available.vo2max().rounded(1).toString(),
                around,
                available.assumes(),
                source));
      } else {
        String reasons = String.join("; ", estimate.reasons());
        rows.add(List.of(name, "none", reasons, "", source));
      }
    }
    blocks.add(
        Table.of(
            "Every estimate of the protocol; the first that could be made is the result, unless it is a"
                + " second look",
            List.of(
                "estimate",
                "aerobic capacity",
                "95 % interval, or why there is none",
                "what it assumes",
                "source"),
            rows));
    capacity.headline().ifPresent(best -> detail(best, blocks));
    return Section.details("Estimates", blocks);
  }

  private void detail(Estimate.Available best, List<Block> blocks) {
    blocks.add(new Paragraph("How it was worked out: " + best.calculation() + "."));
    blocks.add(
        Table.of(
            "What the result rests on",
            List.of("what", "value", "how", "spread between people", "source"),
            best.ingredients().stream()
                .map(
                    part ->
                        List.of(
                            part.name().replace('_', ' '),
                            part.value(),
                            part.how(),
                            part.spread().map(Quantity::toString).orElse("–"),
                            references.number(part.source())))
                .toList()));
    best.interval().ifPresent(around -> interval(around, blocks));
    best.publishedError()
        .ifPresent(
            error ->
                blocks.add(
                    new Paragraph(
                        "Published error of the method: "
                            + error.sd()
                            + (error.note().isEmpty() ? "" : ", " + error.note())
                            + references.behind(error.source())
                            + ".")));
  }

  private void interval(Interval around, List<Block> blocks) {
    blocks.add(
        new Paragraph(
            around.basis() == Interval.Basis.PUBLISHED
                ? "The interval is that of the published error of the method, which is wider than"
                    + " what follows from the errors of all that the result rests on ("
                    + around.propagated().rounded(1)
                    + ")."
                : around.model().base() > 0
                    ? "The interval follows from the errors of all that the result rests on, and"
                        + " from how far the method itself may be off ("
                        + around.model().rounded(1)
                        + ")."
                    : "The interval follows from the errors of all that the result rests on. It"
                        + " leaves out how far the method itself may be off: no file says it."));
    blocks.add(
        new Table(
            "What the interval is made of",
            List.of("source of error", "standard deviation", "share of the variance", "source"),
            around.shares().stream()
                .map(
                    share ->
                        List.of(
                            new Cell(share.name()),
                            new Cell(share.sd().rounded(1).toString()),
                            new Cell(share.percent() + " %", "", share.percent()),
                            new Cell(
                                share.source().isNamed()
                                    ? references.number(share.source())
                                    : "half the reading step / sqrt(3)")))
                .toList()));
    if (!around.nearLinear()) {
      blocks.add(
          new Warning(
              "The formula is not near a straight line over these errors: the interval is only a"
                  + " rough guide."));
    }
  }

  Section findings() {
    List<String> findings = capacity.findings().stream().map(Finding::toString).toList();
    return Section.details(
        "Plausibility",
        List.of(
            findings.isEmpty()
                ? new Paragraph("No rule of the protocol found anything suspicious.")
                : new Items(findings)));
  }

  /** Where the result stands in each table; empty where no tables were given. */
  Optional<Section> standings() {
    if (norms.isEmpty()) {
      return Optional.empty();
    }
    List<List<String>> rows = new ArrayList<>();
    for (Standing standing : standings) {
      NormTable table = standing.table();
      rows.add(
          List.of(
              name(table),
              standing.words(),
              String.join(" ", table.notes()),
              references.number(table.source())));
    }
    return Optional.of(
        Section.details(
            "Norms",
            List.of(
                rows.isEmpty()
                    ? new Paragraph("No table of norms is made for this person and this test.")
                    : Table.of(
                        "Among people of the same sex and age",
                        List.of("table", "place", "notes", "source"),
                        rows))));
  }
}
