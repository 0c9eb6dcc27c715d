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
import org.gradus.report.Block.Answer;
import org.gradus.report.Block.Items;
import org.gradus.report.Block.Paragraph;
import org.gradus.report.Block.Table;
import org.gradus.report.Block.Warning;
import org.gradus.session.Outcome;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** What came out: the answer, how sure it is, whether it is plausible, where it stands. */
final class ResultPart {

  private final Outcome outcome;
  private final Capacity capacity;
  private final List<NormTable> norms;

  ResultPart(Outcome outcome, Capacity capacity, List<NormTable> norms) {
    this.outcome = outcome;
    this.capacity = capacity;
    this.norms = norms;
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
    } else {
      blocks.add(new Paragraph("No aerobic capacity could be estimated from this test."));
    }
    if (outcome.stopped()) {
      blocks.add(new Warning("The exercise was ended by a stop."));
    }
    if (!capacity.findings().isEmpty()) {
      blocks.add(
          new Warning(
              "Something about this result deserves a second look; see under plausibility."));
    }
    return new Section("Result", blocks);
  }

  Section estimates() {
    List<Block> blocks = new ArrayList<>();
    List<List<String>> rows = new ArrayList<>();
    for (Estimate estimate : capacity.estimates()) {
      String name = estimate.id().replace('_', ' ');
      String source = estimate.source().toString();
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
        new Table(
            "Every estimate of the protocol; the first that could be made is the result",
            List.of(
                "estimate",
                "aerobic capacity",
                "95 % interval, or why there is none",
                "what it assumes",
                "source"),
            rows));
    capacity.headline().ifPresent(best -> detail(best, blocks));
    return new Section("Estimates", blocks);
  }

  private static void detail(Estimate.Available best, List<Block> blocks) {
    blocks.add(new Paragraph("How it was worked out: " + best.calculation() + "."));
    blocks.add(
        new Table(
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
                            part.source().toString()))
                .toList()));
    best.interval().ifPresent(around -> interval(around, blocks));
    best.publishedError()
        .ifPresent(
            error ->
                blocks.add(
                    new Paragraph(
                        "Published error of the method: "
                            + error.sd()
                            + (error.note().isEmpty() ? "" : " (" + error.note() + ")")
                            + ", "
                            + Words.sentence(error.source().toString()))));
    blocks.add(new Items(best.cautions()));
  }

  private static void interval(Interval around, List<Block> blocks) {
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
                            share.name(),
                            share.sd().rounded(1).toString(),
                            share.percent() + " %",
                            share.source().isNamed()
                                ? share.source().toString()
                                : "half the reading step / sqrt(3)"))
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
    return new Section(
        "Plausibility",
        List.of(
            findings.isEmpty()
                ? new Paragraph("No rule of the protocol found anything suspicious.")
                : new Items(findings)));
  }

  Section standings() {
    List<List<String>> rows = new ArrayList<>();
    for (Standing standing : capacity.standings(norms)) {
      NormTable table = standing.table();
      rows.add(
          List.of(
              table.of().replace('_', ' ')
                  + table.ergometer().map(on -> ", " + on).orElse("")
                  + ", edition "
                  + table.edition(),
              standing.words(),
              String.join(" ", table.notes()),
              table.source().toString()));
    }
    return new Section(
        "Norms",
        List.of(
            rows.isEmpty()
                ? new Paragraph("No table of norms is made for this person and this test.")
                : new Table(
                    "Among people of the same sex and age",
                    List.of("table", "place", "notes", "source"),
                    rows)));
  }
}
