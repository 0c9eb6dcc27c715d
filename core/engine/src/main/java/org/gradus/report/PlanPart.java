package org.gradus.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.gradus.knowledge.Band.Measure;
import org.gradus.knowledge.Exercise;
import org.gradus.report.Block.Items;
import org.gradus.report.Block.Paragraph;
import org.gradus.report.Block.Table;
import org.gradus.report.Block.Warning;
import org.gradus.session.Outcome;
import org.gradus.training.BandPlan;
import org.gradus.training.LoadPlan;
import org.gradus.training.Range;
import org.gradus.training.Training;
import org.gradus.words.FileText;

/** How to train by the result. */
final class PlanPart {

  private final Training plan;
  private final Outcome outcome;
  private final References references;
  private final Words words;

  PlanPart(Training plan, Outcome outcome, References references, Words words) {
    this.plan = plan;
    this.outcome = outcome;
    this.references = references;
    this.words = words;
  }

  /** What the person takes home: each band as heart rate, rating and a load on this ergometer. */
  Section summary() {
    if (plan.withheld().isPresent()) {
      return Section.first(
          words.say(ReportMessage.PLAN_TITLE),
          List.of(
              new Warning(words.say(ReportMessage.CAUTION), words.say(plan.whyWithheld().get()))));
    }
    List<Block> blocks = new ArrayList<>();
    blocks.add(summaryTable());
    blocks.add(new Items(remarks()));
    return Section.first(words.say(ReportMessage.PLAN_TITLE), blocks);
  }

  // Where something is missing the remarks say why; else they are for the details.
  private List<String> remarks() {
    boolean whole =
        plan.plans().stream()
            .allMatch(band -> band.heartRate().isPresent() && band.uptake().isPresent());
    return whole
        ? plan.bands().cautions().stream().map(words::text).toList()
        : plan.notes().stream().map(words::say).toList();
  }

  private Table summaryTable() {
    List<Exercise> exercises = exercises();
    List<String> heads =
        new ArrayList<>(
            words.heads(ReportMessage.BAND, ReportMessage.HEART_RATE, ReportMessage.RATING));
    exercises.forEach(exercise -> heads.add(words.text(exercise.title())));
    List<List<String>> rows = new ArrayList<>();
    for (BandPlan band : plan.plans()) {
      List<String> row =
          new ArrayList<>(
              List.of(words.name(band.id()), shown(band.heartRate(), 0), shown(band.rating(), 0)));
      exercises.forEach(exercise -> row.add(load(band, exercise)));
      rows.add(row);
    }
    return Table.of(tableTitle(), heads, rows);
  }

  // Why a band cannot be reached in a way stands in the details.
  private String load(BandPlan band, Exercise exercise) {
    return band.load(exercise.id())
        .filter(LoadPlan.Reachable.class::isInstance)
        .map(load -> words.say(((LoadPlan.Reachable) load).setting().message()))
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
                        words.say(
                            ReportMessage.MET_MINUTES,
                            words.range(volume.metMinutes().low(), volume.metMinutes().high()),
                            references.behind(volume.source())))));
    List<String> told = remarks();
    blocks.add(
        new Items(
            plan.notes().stream()
                .map(words::say)
                .filter(remark -> !told.contains(remark))
                .toList()));
    return Optional.of(Section.details(words.say(ReportMessage.PLAN_DETAILS), blocks));
  }

  private Table bands() {
    List<List<String>> rows =
        plan.plans().stream()
            .map(
                band ->
                    List.of(
                        words.name(band.id()),
                        band.band()
                            .by(Measure.RESERVE)
                            .map(part -> words.say(part.message()))
                            .orElse("–"),
                        shown(band.heartRate(), 0),
                        shown(band.uptake(), 1),
                        shown(band.mets(), 1),
                        shown(band.energy(), 1),
                        shown(band.rating(), 0),
                        band.weekly().map(words::say).orElse("–")))
            .toList();
    return Table.of(
        tableTitle() + bandSources(),
        words.heads(
            ReportMessage.BAND,
            ReportMessage.SHARE_OF_RESERVE,
            ReportMessage.HEART_RATE,
            ReportMessage.UPTAKE,
            ReportMessage.MET,
            ReportMessage.ENERGY,
            ReportMessage.RATING,
            ReportMessage.PER_WEEK),
        rows);
  }

  private String bandSources() {
    return plan.bands().bands().stream()
        .map(band -> references.behind(band.source()))
        .distinct()
        .collect(Collectors.joining());
  }

  private String tableTitle() {
    return words.say(
        ReportMessage.PLAN_TABLE, new FileText(plan.bands().title()), plan.bands().scale());
  }

  private String shown(Optional<Range> range, int decimals) {
    return range.map(found -> words.say(found.rounded(decimals).message())).orElse("–");
  }

  private Table loads() {
    List<String> heads = new ArrayList<>(words.heads(ReportMessage.EXERCISE));
    List<BandPlan> bands = plan.plans();
    bands.forEach(band -> heads.add(words.name(band.id())));
    List<List<String>> rows = new ArrayList<>();
    plan.bands()
        .exercises()
        .forEach(
            exercise -> {
              List<String> row = new ArrayList<>(List.of(words.text(exercise.title())));
              bands.forEach(
                  band ->
                      row.add(
                          band.load(exercise.id())
                              .map(load -> words.say(load.message()))
                              .orElse("–")));
              rows.add(row);
            });
    return Table.of(words.say(ReportMessage.LOADS_TABLE), heads, rows);
  }
}
