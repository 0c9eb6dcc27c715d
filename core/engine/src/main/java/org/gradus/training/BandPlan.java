package org.gradus.training;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;
import org.gradus.knowledge.Band;
import org.gradus.unit.Quantity;

/**
 * A band of intensity for one person.
 *
 * @param band the band as it is printed
 * @param heartRate the heart rates, where they can be worked out
 * @param heartRateBy the method they were worked out by
 * @param uptake the uptakes, where they can be worked out
 * @param uptakeBy the method they were worked out by
 * @param mets the same in MET
 * @param energy the energy spent per minute at those uptakes
 * @param rating the ratings of perceived exertion
 * @param loads the loads at those uptakes; empty where there are none
 * @param weekly the time a week that is recommended if it is all spent here, where it is printed
 */
public record BandPlan(
    Band band,
    Optional<Range> heartRate,
    Optional<String> heartRateBy,
    Optional<Range> uptake,
    Optional<String> uptakeBy,
    Optional<Range> mets,
    Optional<Range> energy,
    Optional<Range> rating,
    List<LoadPlan> loads,
    Optional<Quantity> weekly) {

  public BandPlan {
    requireNonNull(band, "band");
    requireNonNull(energy, "energy");
    requireNonNull(heartRate, "heartRate");
    requireNonNull(heartRateBy, "heartRateBy");
    requireNonNull(loads, "loads");
    requireNonNull(mets, "mets");
    requireNonNull(rating, "rating");
    requireNonNull(uptake, "uptake");
    requireNonNull(uptakeBy, "uptakeBy");
    requireNonNull(weekly, "weekly");
    loads = List.copyOf(loads);
  }

  /** The id of the band. */
  public String id() {
    return band.id();
  }

  /** The load of an exercise. */
  public Optional<LoadPlan> load(String exercise) {
    requireNonNull(exercise, "exercise");
    return loads.stream().filter(load -> load.exercise().id().equals(exercise)).findFirst();
  }
}
