package org.gradus.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.knowledge.Band.Measure;
import org.gradus.knowledge.Extent;
import org.gradus.report.Block.Items;
import org.gradus.report.Block.Paragraph;
import org.gradus.report.Block.Table;
import org.gradus.report.Block.Warning;
import org.gradus.training.BandPlan;
import org.gradus.training.LoadPlan;
import org.gradus.training.Range;
import org.gradus.training.Training;

/** How to train by the result. */
final class PlanPart {

  private final Training plan;

  PlanPart(Training plan) {
    this.plan = plan;
  }

  Section section() {
    if (plan.withheld().isPresent()) {
      return new Section("Training plan", List.of(new Warning(plan.withheld().get())));
    }
    List<Block> blocks = new ArrayList<>();
    blocks.add(bands());
    if (plan.plans().stream().anyMatch(band -> !band.loads().isEmpty())) {
      blocks.add(loads());
    }
    plan.volume()
        .ifPresent(
            volume ->
                blocks.add(
                    new Paragraph(
                        "In a week "
                            + volume.metMinutes()
                            + " MET minutes are recommended: "
                            + Words.sentence(volume.source().toString()))));
    blocks.add(new Items(plan.remarks()));
    return new Section("Training plan", blocks);
  }

  private Table bands() {
    List<List<String>> rows =
        plan.plans().stream()
            .map(
                band ->
                    List.of(
                        band.id().replace('_', ' '),
                        band.band().by(Measure.RESERVE).map(Extent::toString).orElse("–"),
                        shown(band.heartRate(), 0),
                        shown(band.uptake(), 1),
                        shown(band.mets(), 1),
                        shown(band.energy(), 1),
                        shown(band.rating(), 0),
                        band.weekly().map(Object::toString).orElse("–")))
            .toList();
    return new Table(
        plan.bands().title() + ", ratings by the scale " + plan.bands().scale(),
        List.of(
            "band",
            "share of the reserve",
            "heart rate",
            "oxygen uptake",
            "MET",
            "energy",
            "rating",
            "per week, if all training is in this band"),
        rows);
  }

  private static String shown(Optional<Range> range, int decimals) {
    return range.map(found -> found.rounded(decimals).toString()).orElse("–");
  }

  private Table loads() {
    List<String> heads = new ArrayList<>(List.of("exercise"));
    List<BandPlan> bands = plan.plans();
    bands.forEach(band -> heads.add(band.id().replace('_', ' ')));
    List<List<String>> rows = new ArrayList<>();
    plan.bands()
        .exercises()
        .forEach(
            exercise -> {
              List<String> row = new ArrayList<>(List.of(exercise.title()));
              bands.forEach(
                  band -> row.add(band.load(exercise.id()).map(LoadPlan::words).orElse("–")));
              rows.add(row);
            });
    return new Table("Loads, solved from the equations of the oxygen cost", heads, rows);
  }
}
