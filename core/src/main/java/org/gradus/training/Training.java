package org.gradus.training;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.TestFacts;
import org.gradus.knowledge.Exercise;
import org.gradus.knowledge.IntensityBands;
import org.gradus.knowledge.WeeklyVolume;
import org.gradus.protocol.Attribute;

/**
 * How to train by a result: each band of intensity as heart rate, uptake, rating, energy and load.
 *
 * <pre>{@code
 * Training plan = Training.plan(capacity, library.bands("bands-2011"));
 * BandPlan moderate = plan.band("moderate").orElseThrow();
 * moderate.heartRate();                    // 111 to 131 bpm
 * moderate.load("level_walk");             // 76 to 100 m/min, or why not
 * }</pre>
 *
 * <p>Where medicine slows the heart only the rating is left, and a remark says so. A plan is advice
 * to a trained person who knows the one it is for; it is no prescription.
 *
 * @param bands where the bands come from
 * @param plans the bands, the easiest first
 * @param volume how much a week, if the bands say so
 * @param remarks what could not be worked out and why, which convention of energy was used, and
 *     what else to keep in mind
 */
public record Training(
    IntensityBands bands,
    List<BandPlan> plans,
    Optional<WeeklyVolume> volume,
    List<String> remarks) {

  public Training {
    plans = List.copyOf(plans);
    remarks = List.copyOf(remarks);
  }

  /** The plan of a band. */
  public Optional<BandPlan> band(String id) {
    return plans.stream().filter(plan -> plan.id().equals(id)).findFirst();
  }

  /**
   * The load of one way to exercise, for the person of a test.
   *
   * @param uptake the uptakes that are wanted, per kilogram
   */
  public static LoadPlan load(Capacity capacity, Exercise exercise, Range uptake) {
    TestFacts facts = capacity.facts();
    return new LoadFinder(
            exercise, facts.given(), facts.person().value(Attribute.MASS), facts.loads())
        .plan(uptake);
  }

  /** Makes a plan by the headline of a test and by these bands. */
  public static Training plan(Capacity capacity, IntensityBands bands) {
    Planner planner = new Planner(capacity, bands);
    List<BandPlan> plans = bands.bands().stream().map(planner::plan).toList();
    List<String> remarks = new ArrayList<>(planner.remarks());
    remarks.addAll(bands.cautions());
    return new Training(bands, plans, bands.volume(), remarks);
  }
}
