package org.gradus.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.gradus.knowledge.Band.Measure;
import org.gradus.knowledge.Exercise;
import org.gradus.knowledge.Extent;
import org.gradus.report.Block.Items;
import org.gradus.report.Block.Paragraph;
import org.gradus.report.Block.Table;
import org.gradus.report.Block.Warning;
import org.gradus.session.Outcome;
import org.gradus.training.BandPlan;
import org.gradus.training.LoadPlan;
import org.gradus.training.Range;
import org.gradus.training.Training;

/** How to train by the result. */
final class PlanPart {

  private static final String TITLE = "Training plan";

  private final Training plan;
  private final Outcome outcome;
  private final References references;

  PlanPart(Training plan, Outcome outcome, References references) {
    this.plan = plan;
    this.outcome = outcome;
    this.references = references;
  }

  /** What the person takes home: each band as heart rate, rating and a load on this ergometer. */
  Section summary() {
    if (plan.withheld().isPresent()) {
      return Section.first(TITLE, List.of(new Warning(plan.withheld().get())));
    }
    List<Block> blocks = new ArrayList<>();
    blocks.add(summaryTable());
    blocks.add(new Items(remarks()));
    return Section.first(TITLE, blocks);
  }

  // Where something is missing the remarks say why; else they are for the details.
  private List<String> remarks() {
    boolean whole =
        plan.plans().stream()
            .allMatch(band -> band.heartRate().isPresent() && band.uptake().isPresent());
    return whole ? plan.bands().cautions() : plan.remarks();
  }

  private Table summaryTable() {
    List<Exercise> exercises = exercises();
    List<String> heads = new ArrayList<>(List.of("band", "heart rate", "rating"));
    exercises.forEach(exercise -> heads.add(exercise.title()));
    List<List<String>> rows = new ArrayList<>();
    for (BandPlan band : plan.plans()) {
      List<String> row =
          new ArrayList<>(
              List.of(words(band.id()), shown(band.heartRate(), 0), shown(band.rating(), 0)));
      exercises.forEach(exercise -> row.add(load(band, exercise)));
      rows.add(row);
    }
    return Table.of(
        plan.bands().title() + ", ratings by the scale " + plan.bands().scale(), heads, rows);
  }

  // Why a band cannot be reached in a way stands in the details.
  private static String load(BandPlan band, Exercise exercise) {
    return band.load(exercise.id())
        .filter(LoadPlan.Reachable.class::isInstance)
        .map(load -> ((LoadPlan.Reachable) load).setting().toString())
        .orElse("–");
  }

  // Those of the ergometer of this test, or with an oxygen cost that the test itself uses.
  private List<Exercise> exercises() {
    String ergometer = outcome.protocol().heading().ergometer().replace('-', '_');
    List<String> costs =
        outcome.protocol().assessment().costs().stream().map(line -> line.equation().id()).toList();
    return plan.bands().exercises().stream()
        .filter(exercise -> exercise.id().equals(ergometer) || costs.contains(exercise.equation()))
        .toList();
  }

  /** Everything that the plan is made of; empty where no plan is given. */
  Optional<Section> details() {
    if (plan.withheld().isPresent()) {
      return Optional.empty();
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
                            + " MET minutes are recommended"
                            + references.behind(volume.source())
                            + ".")));
    List<String> told = remarks();
    blocks.add(
        new Items(plan.remarks().stream().filter(remark -> !told.contains(remark)).toList()));
    return Optional.of(Section.details("Training in detail", blocks));
  }

  private Table bands() {
    List<List<String>> rows =
        plan.plans().stream()
            .map(
                band ->
                    List.of(
                        words(band.id()),
                        band.band().by(Measure.RESERVE).map(Extent::toString).orElse("–"),
                        shown(band.heartRate(), 0),
                        shown(band.uptake(), 1),
                        shown(band.mets(), 1),
                        shown(band.energy(), 1),
                        shown(band.rating(), 0),
                        band.weekly().map(Object::toString).orElse("–")))
            .toList();
    return Table.of(
        plan.bands().title() + ", ratings by the scale " + plan.bands().scale() + bandSources(),
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

  private String bandSources() {
    return plan.bands().bands().stream()
        .map(band -> references.behind(band.source()))
        .distinct()
        .collect(Collectors.joining());
  }

  private static String words(String id) {
    return id.replace('_', ' ');
  }

  private static String shown(Optional<Range> range, int decimals) {
    return range.map(found -> found.rounded(decimals).toString()).orElse("–");
  }

  private Table loads() {
    List<String> heads = new ArrayList<>(List.of("exercise"));
    List<BandPlan> bands = plan.plans();
    bands.forEach(band -> heads.add(words(band.id())));
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
    return Table.of("Loads, solved from the equations of the oxygen cost", heads, rows);
  }
}
