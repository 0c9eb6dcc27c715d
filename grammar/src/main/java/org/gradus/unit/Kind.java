package org.gradus.unit;

import static java.util.Objects.requireNonNull;

import java.util.Arrays;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * What a value is a measure of. Two values can be compared or added only when their kinds are
 * equal.
 *
 * <p>In files and rules a kind is written in lower case with underscores: {@code heart_rate}.
 */
public enum Kind {
  /** A plain number or a percentage. */
  NUMBER("a plain number"),
  /** Beats of the heart per minute. */
  HEART_RATE("a heart rate"),
  /** Arterial blood pressure. */
  PRESSURE("a pressure"),
  /** A duration. */
  TIME("a time"),
  /** Completed years of life. */
  AGE("an age"),
  /** Speed of walking, running or of a belt. */
  SPEED("a speed"),
  /** Mechanical power of an ergometer. */
  POWER("a power"),
  /** Brake force of an ergometer. */
  FORCE("a force"),
  /** Turns of the pedals or cranks per minute. */
  PEDAL_RATE("a pedal rate"),
  /** Stepping rate; one cycle (up, up, down, down) is four steps. */
  STEP_RATE("a step rate"),
  /** A length: height, bench, distance. */
  LENGTH("a length"),
  /** Body mass. */
  MASS("a mass"),
  /** Oxygen uptake per kilogram of body mass. */
  UPTAKE("an uptake per kilogram"),
  /** Oxygen uptake of the whole body. */
  ABSOLUTE_UPTAKE("an absolute uptake"),
  /** Energy spent. */
  ENERGY("an energy"),
  /** Energy spent per minute. */
  ENERGY_RATE("an energy rate"),
  /** Power per kilogram of body mass. */
  POWER_PER_MASS("a power per kilogram"),
  /**
   * Anything that is counted per time and is no rate of heart, pedals or steps: strokes, breaths.
   */
  FREQUENCY("a frequency"),
  /** Time for a distance, as runners say it; the greater, the slower. */
  PACE("a pace"),
  /** Torque at a crank or a joint. */
  TORQUE("a torque"),
  /** An angle of a trunk, a joint or a belt. */
  ANGLE("an angle"),
  /** A volume of air or of drink. */
  VOLUME("a volume"),
  /** Air breathed per minute, at body temperature and pressure, saturated. */
  VENTILATION("a ventilation"),
  /** Amount of a substance in a volume of blood: lactate, glucose. */
  CONCENTRATION("a concentration"),
  /** Mass of a substance in a volume of blood. */
  MASS_CONCENTRATION("a mass concentration");

  private final String phrase;

  Kind(String phrase) {
    this.phrase = phrase;
  }

  /** What to do about a value of another kind: {@code "give it in units such as bpm"}. */
  public String remedy() {
    return this == NUMBER
        ? "write it without a unit"
        : "give it in units such as " + base().symbol();
  }

  /** The kind in words with its article, for messages: {@code "a heart rate"}. */
  public String phrase() {
    return phrase;
  }

  /** The kind in words without an article: {@code "heart rate"}. */
  public String words() {
    return phrase.substring(phrase.indexOf(' ') + 1);
  }

  /** The word that files use for this kind: {@code "heart_rate"}. */
  public String id() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The unit in which values of this kind are computed and, where nothing else is known, shown. */
  public Unit base() {
    return Objects.requireNonNull(Base.UNITS.get(this));
  }

  /** Apart, because units name their kinds. */
  private static final class Base {
    private static final Map<Kind, Unit> UNITS =
        Arrays.stream(Unit.values())
            .filter(unit -> unit.toBase(1) == 1)
            .collect(
                Collectors.toUnmodifiableMap(Unit::kind, unit -> unit, (first, other) -> first));
  }

  /**
   * The kind a file calls by this word.
   *
   * @param id for example {@code "heart_rate"}
   * @return the kind, or empty when no kind has that word
   */
  public static Optional<Kind> named(String id) {
    requireNonNull(id, "id");
    return Arrays.stream(values()).filter(kind -> kind.id().equals(id)).findFirst();
  }
}
