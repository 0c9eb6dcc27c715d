package org.gradus.training;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.knowledge.Citation;
import org.gradus.knowledge.EnergyEquation;
import org.gradus.knowledge.Given;
import org.gradus.knowledge.IntensityBands;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.gradus.words.Message;

/**
 * How many minutes of exercise a week spend a given energy. The conventions by which an uptake
 * becomes an energy differ, so each gives its own minutes.
 *
 * <pre>{@code
 * WeeklyMinutes.of(library.bands("bands-2011"), kcal(1000), 5, met(6), kg(70)).toString();
 * // 136 min a week, 27 min on each of 5 days, by five kcal per litre; 143 min a week, 29 min on each
 * // of 5 days, by met kilogram hours
 * }</pre>
 *
 * <p>The uptake is the whole one, with what rest would have taken. A plan is advice to a trained
 * person who knows the one it is for; it is no prescription.
 *
 * @param energy the energy of a week
 * @param days on how many days
 * @param uptake the uptake during exercise, per kilogram
 * @param mass the mass of the person
 * @param by the minutes by each convention; the first is the one the bands use
 */
public record WeeklyMinutes(
    Quantity energy, int days, Quantity uptake, Quantity mass, List<By> by) {

  private static final int DAYS_A_WEEK = 7;
  private static final Map<String, Kind> KINDS =
      Map.of("energy", Kind.ENERGY, "uptake", Kind.UPTAKE, "mass", Kind.MASS);

  /**
   * The minutes by one convention.
   *
   * @param convention its id
   * @param source where it comes from
   * @param rate the energy spent in a minute
   * @param week the minutes in a week, unrounded
   * @param day the minutes on each day of exercise, unrounded
   */
  public record By(String convention, Citation source, Quantity rate, Quantity week, Quantity day) {
    public By {
      requireNonNull(convention, "convention");
      requireNonNull(day, "day");
      requireNonNull(rate, "rate");
      requireNonNull(source, "source");
      requireNonNull(week, "week");
    }
  }

  public WeeklyMinutes {
    requireNonNull(by, "by");
    requireNonNull(energy, "energy");
    requireNonNull(mass, "mass");
    requireNonNull(uptake, "uptake");
    by = List.copyOf(by);
  }

  /**
   * Works them out.
   *
   * @param bands whose conventions count
   * @param energy the energy of a week, as in kcal
   * @param days on how many days, from 1 to 7
   * @param uptake the uptake during exercise, as in MET
   * @param mass the mass of the person
   * @throws ReadingRefused when a value is of another kind or not above zero, when there are no
   *     such days in a week, or when a convention asks for more than uptake and mass
   */
  public static WeeklyMinutes of(
      IntensityBands bands, Quantity energy, int days, Quantity uptake, Quantity mass) {
    requireNonNull(bands, "bands");
    requireNonNull(energy, "energy");
    requireNonNull(mass, "mass");
    requireNonNull(uptake, "uptake");
    Map<String, Quantity> values = Map.of("energy", energy, "uptake", uptake, "mass", mass);
    Given given = Given.NOTHING.with(values, KINDS);
    values.forEach(Training::refuseUnlessAboveZero);
    if (days < 1 || days > DAYS_A_WEEK) {
      throw new ReadingRefused(
          Code.G508, "days", Integer.toString(days), "a week has 1 to 7 days of exercise");
    }
    List<By> by =
        bands.energies().stream().map(convention -> by(convention, given, energy, days)).toList();
    return new WeeklyMinutes(energy, days, uptake, mass, by);
  }

  private static By by(EnergyEquation convention, Given given, Quantity energy, int days) {
    double rate = convention.rate().value(given);
    if (!(rate > 0)) {
      throw new ReadingRefused(
          Code.G508,
          "the energy by " + convention.id(),
          "worked out",
          "it needs more than uptake and mass: "
              + convention.rate().gaps(given).stream()
                  .map(Message::toString)
                  .collect(Collectors.joining(", ")));
    }
    double week = energy.in(Unit.KCAL) / Quantity.ofBase(rate, Unit.KCAL_PER_MINUTE).amount();
    return new By(
        convention.id(),
        convention.source(),
        Quantity.ofBase(rate, Unit.KCAL_PER_MINUTE),
        Quantity.of(week, Unit.MINUTE),
        Quantity.of(week / days, Unit.MINUTE));
  }

  /** The minutes by each convention, rounded, in one line. */
  @Override
  public String toString() {
    return String.join("; ", by.stream().map(this::words).toList());
  }

  private String words(By found) {
    return found.week().rounded(0)
        + " a week, "
        + found.day().rounded(0)
        + (days == 1 ? " on one day, by " : " on each of " + days + " days, by ")
        + found.convention().replace('_', ' ');
  }
}
