package org.gradus.training;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Clearance;
import org.gradus.capacity.Estimate.Available;
import org.gradus.capacity.TestFacts;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.knowledge.Exercise;
import org.gradus.knowledge.Given;
import org.gradus.knowledge.IntensityBands;
import org.gradus.knowledge.ResultMessage;
import org.gradus.knowledge.WeeklyVolume;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Person;
import org.gradus.unit.Quantity;
import org.gradus.words.FileText;
import org.gradus.words.Joined;
import org.gradus.words.Message;

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
 * <p>After an alarming stop there is no plan until the person has been cleared for exercise: told
 * in recovery ({@link org.gradus.session.Readings#clearedAfterStop}) or afterwards ({@link
 * Capacity#clearedAfterStop}).
 *
 * <p>Where medicine slows the heart only the rating is left, and a remark says so. A plan is advice
 * to a trained person who knows the one it is for; it is no prescription.
 *
 * @param bands where the bands come from
 * @param whyWithheld why no plan is made, if it is not; there are no bands then
 * @param plans the bands, the easiest first
 * @param volume how much a week, if the bands say so
 * @param notes what could not be worked out and why, which convention of energy was used, and what
 *     else to keep in mind
 */
public record Training(
    IntensityBands bands,
    Optional<Message> whyWithheld,
    List<BandPlan> plans,
    Optional<WeeklyVolume> volume,
    List<Message> notes) {

  private static final Message AFTER_A_STOP = Message.of(ResultMessage.NO_PLAN_AFTER_STOP);
  private static final Message CLEARED = Message.of(ResultMessage.CLEARED_AFTER_STOP);

  public Training {
    requireNonNull(notes, "notes");
    requireNonNull(whyWithheld, "whyWithheld");
    requireNonNull(bands, "bands");
    requireNonNull(plans, "plans");
    requireNonNull(volume, "volume");
    plans = List.copyOf(plans);
    notes = List.copyOf(notes);
  }

  /** Why no plan is made, in English, if it is not. */
  public Optional<String> withheld() {
    return whyWithheld.map(Message::toString);
  }

  /** The notes, in English. */
  public List<String> remarks() {
    return notes.stream().map(Message::toString).toList();
  }

  /** The plan of a band. */
  public Optional<BandPlan> band(String id) {
    requireNonNull(id, "id");
    return plans.stream().filter(plan -> plan.id().equals(id)).findFirst();
  }

  /**
   * The load of one way to exercise, for the person of a test.
   *
   * @param uptake the uptakes that are wanted, per kilogram
   * @return the loads, or why there are none; there are none after an alarming stop without
   *     clearance
   */
  public static LoadPlan load(Capacity capacity, Exercise exercise, Range uptake) {
    if (capacity.clearance() == Clearance.OUTSTANDING) {
      return new LoadPlan.NotReachable(exercise, AFTER_A_STOP);
    }
    TestFacts facts = capacity.facts();
    return new LoadFinder(
            exercise, facts.given(), facts.person().value(Attribute.MASS), facts.loads())
        .plan(uptake);
  }

  /**
   * Makes a plan by the headline of a test and by these bands; none after an alarming stop without
   * clearance.
   */
  public static Training plan(Capacity capacity, IntensityBands bands) {
    requireNonNull(bands, "bands");
    if (capacity.clearance() == Clearance.OUTSTANDING) {
      return new Training(bands, Optional.of(AFTER_A_STOP), List.of(), Optional.empty(), List.of());
    }
    TestFacts facts = capacity.facts();
    Given given =
        facts.given().with(PersonalBands.VO2MAX, capacity.headline().map(Available::vo2max));
    return plan(
        new PersonalBands(given, facts.loads(), bands),
        bands,
        capacity.clearance() == Clearance.GIVEN ? List.of(CLEARED) : List.of());
  }

  /**
   * Works out bands by values that are known without a test, such as a capacity that was measured.
   * Nothing is known of a stop here: whoever calls this knows that the person may exercise.
   *
   * <pre>{@code
   * Training.of(bands, person, Map.of("resting.heart_rate", bpm(60), "max_heart_rate", bpm(180)))
   *     .band("moderate");                   // 108 to 131 bpm
   * }</pre>
   *
   * @param person whose age, sex, mass and medicine count
   * @param values by the names of {@link IntensityBands#ABILITIES}; what is left out is not known,
   *     and a remark says what cannot be worked out without it
   * @throws ReadingRefused when a value has another name, is of another kind or not above zero
   */
  public static Training of(IntensityBands bands, Person person, Map<String, Quantity> values) {
    requireNonNull(bands, "bands");
    requireNonNull(values, "values");
    Given given = person.given().with(values, IntensityBands.ABILITIES);
    values.forEach(Training::refuseUnlessAboveZero);
    return plan(new PersonalBands(given, Map.of(), bands), bands, List.of());
  }

  static void refuseUnlessAboveZero(String name, Quantity value) {
    if (!(value.base() > 0)) {
      throw new ReadingRefused(Code.G508, name, value.toString(), "it has to be above zero");
    }
  }

  private static Training plan(PersonalBands planner, IntensityBands bands, List<Message> first) {
    List<BandPlan> plans = bands.bands().stream().map(planner::plan).toList();
    List<Message> notes = new ArrayList<>(first);
    notes.addAll(planner.remarks());
    bands.cautions().forEach(caution -> notes.add(Message.of(Joined.ALONE, new FileText(caution))));
    return new Training(bands, Optional.empty(), plans, bands.volume(), notes);
  }
}
