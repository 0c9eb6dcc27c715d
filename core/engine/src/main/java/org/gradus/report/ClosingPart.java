package org.gradus.report;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.capacity.Standing;
import org.gradus.knowledge.Citation;
import org.gradus.knowledge.IntensityBands;
import org.gradus.knowledge.NormTable;
import org.gradus.report.Block.Items;
import org.gradus.report.Block.Warning;
import org.gradus.session.Outcome;

/** What has to be kept in mind, and where everything comes from. */
final class ClosingPart {

  private final Outcome outcome;
  private final Capacity capacity;
  private final List<NormTable> norms;
  private final Optional<IntensityBands> bands;

  ClosingPart(
      Outcome outcome, Capacity capacity, List<NormTable> norms, Optional<IntensityBands> bands) {
    this.outcome = outcome;
    this.capacity = capacity;
    this.norms = norms;
    this.bands = bands;
  }

  Section cautions() {
    List<Block> blocks = new ArrayList<>();
    blocks.add(new Warning(Report.CAUTION));
    blocks.add(new Items(outcome.protocol().heading().cautions()));
    return new Section("Cautions", blocks);
  }

  Section sources() {
    Set<String> sources = new LinkedHashSet<>();
    outcome.protocol().heading().sources().forEach(source -> sources.add(source.text()));
    for (Estimate estimate : capacity.estimates()) {
      if (estimate instanceof Estimate.Available available) {
        available.ingredients().forEach(part -> add(part.source(), sources));
        available.interval().ifPresent(i -> i.shares().forEach(s -> add(s.source(), sources)));
      }
    }
    for (Standing standing : capacity.standings(norms)) {
      add(standing.table().source(), sources);
    }
    bands.ifPresent(plan -> sources(plan, sources));
    return new Section("Sources", List.of(new Items(List.copyOf(sources))));
  }

  private static void sources(IntensityBands plan, Set<String> sources) {
    plan.bands().forEach(band -> add(band.source(), sources));
    plan.methods().forEach(method -> add(method.source(), sources));
    plan.energies().forEach(energy -> add(energy.source(), sources));
    plan.exercises().forEach(exercise -> add(exercise.source(), sources));
  }

  private static void add(Citation source, Set<String> sources) {
    if (source.isNamed()) {
      sources.add(source.text());
    }
  }
}
