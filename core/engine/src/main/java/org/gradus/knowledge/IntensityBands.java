package org.gradus.knowledge;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.unit.Kind;

/**
 * Bands of exercise intensity, with what turns them into heart rates, uptakes, energies and loads.
 *
 * @param id the id of their file: {@code bands-2011}
 * @param version its version
 * @param title its title
 * @param scale the scale of their ratings
 * @param bands the bands, the easiest first
 * @param methods how shares become heart rates and uptakes, the preferred ones first
 * @param energies how uptakes become energies; the first is used, the others are named
 * @param exercises the ways to exercise for which loads are worked out
 * @param volume how much a week, if the file says so
 * @param cautions what to keep in mind
 */
public record IntensityBands(
    String id,
    String version,
    String title,
    String scale,
    List<Band> bands,
    List<IntensityMethod> methods,
    List<EnergyEquation> energies,
    List<Exercise> exercises,
    Optional<WeeklyVolume> volume,
    List<String> cautions) {

  /** What is known of a person's abilities, by the names that methods use, with its kind. */
  public static final Map<String, Kind> ABILITIES =
      Map.of(
          "vo2max", Kind.UPTAKE,
          "max_heart_rate", Kind.HEART_RATE,
          "resting.heart_rate", Kind.HEART_RATE);

  public IntensityBands {
    requireNonNull(bands, "bands");
    requireNonNull(cautions, "cautions");
    requireNonNull(energies, "energies");
    requireNonNull(exercises, "exercises");
    requireNonNull(id, "id");
    requireNonNull(methods, "methods");
    requireNonNull(scale, "scale");
    requireNonNull(title, "title");
    requireNonNull(version, "version");
    requireNonNull(volume, "volume");
    bands = List.copyOf(bands);
    methods = List.copyOf(methods);
    energies = List.copyOf(energies);
    exercises = List.copyOf(exercises);
    cautions = List.copyOf(cautions);
  }
}
