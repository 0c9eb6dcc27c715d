package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/** Everything that can be told to a test. Immutable. */
public final class Instruments {

  /**
   * The name of an answer that every protocol takes after a stop: whether the person has been
   * cleared for exercise since, by somebody who may do so.
   */
  public static final String CLEARED_AFTER_STOP = "cleared_after_stop";

  private final Map<String, Signal> signals;
  private final Map<String, Scale> scales;
  private final Map<String, Sign> signs;
  private final Map<String, Question> questions;
  private final Map<String, LoadRange> loads;
  private final Map<String, LoadComponent> components;
  private final Ergometer ergometer;
  private final List<Sign> asked;
  private final List<Signal> ordered;
  private final Map<String, List<String>> scalesOf;

  /**
   * All by their names, in the order of the file.
   *
   * @param signals what is read
   * @param scales rating scales
   * @param signs signs and symptoms
   * @param questions what is answered before the test
   * @param loads what the components of a load can be
   * @param components the components of a load that its stages set
   * @param ergometer what the test is done on
   */
  public Instruments(
      Map<String, Signal> signals,
      Map<String, Scale> scales,
      Map<String, Sign> signs,
      Map<String, Question> questions,
      Map<String, LoadRange> loads,
      Map<String, LoadComponent> components,
      Ergometer ergometer) {
    requireNonNull(components, "components");
    requireNonNull(ergometer, "ergometer");
    requireNonNull(loads, "loads");
    requireNonNull(questions, "questions");
    requireNonNull(scales, "scales");
    requireNonNull(signals, "signals");
    requireNonNull(signs, "signs");
    this.signals = Collections.unmodifiableMap(new LinkedHashMap<>(signals));
    this.scales = Collections.unmodifiableMap(new LinkedHashMap<>(scales));
    this.signs = Collections.unmodifiableMap(new LinkedHashMap<>(signs));
    this.questions = Collections.unmodifiableMap(new LinkedHashMap<>(questions));
    this.loads = Collections.unmodifiableMap(new LinkedHashMap<>(loads));
    this.components = Collections.unmodifiableMap(new LinkedHashMap<>(components));
    this.ergometer = ergometer;
    this.ordered = signals.values().stream().filter(signal -> signal.below().isPresent()).toList();
    this.asked = signs.values().stream().filter(Sign::asked).toList();
    this.scalesOf =
        scales.values().stream()
            .collect(
                Collectors.groupingBy(
                    Scale::of, Collectors.mapping(Scale::name, Collectors.toUnmodifiableList())));
  }

  /** What is read, by name. */
  public Map<String, Signal> signals() {
    return signals;
  }

  /** Rating scales, by name. */
  public Map<String, Scale> scales() {
    return scales;
  }

  /** Signs and symptoms, by name. */
  public Map<String, Sign> signs() {
    return signs;
  }

  /** What is answered before the test, by name. */
  public Map<String, Question> questions() {
    return questions;
  }

  /** What the components of a load can be, by name; of one that is not here nothing is said. */
  public Map<String, LoadRange> loads() {
    return loads;
  }

  /** The components of a load that the stages set, by name, in the order of the stages. */
  public Map<String, LoadComponent> components() {
    return components;
  }

  /** What the test is done on. */
  public Ergometer ergometer() {
    return ergometer;
  }

  /** The signs that the person is asked about all along, in the order of the file. */
  public List<Sign> asked() {
    return asked;
  }

  /** The names of the rating scales on which a signal is given; none unless it is a rating. */
  public List<String> scalesOf(String signal) {
    requireNonNull(signal, "signal");
    return scalesOf.getOrDefault(signal, List.of());
  }

  /** The signals that lie below another one, as the lower pressure below the upper one. */
  public List<Signal> ordered() {
    return ordered;
  }

  /** The signal of a name that the protocol is known to have. */
  public Signal signal(String name) {
    requireNonNull(name, "name");
    return present(signals, name);
  }

  /** The sign of a name that the protocol is known to have. */
  public Sign sign(String name) {
    requireNonNull(name, "name");
    return present(signs, name);
  }

  /** The question of a name that the protocol is known to have. */
  public Question question(String name) {
    requireNonNull(name, "name");
    return present(questions, name);
  }

  private static <T> T present(Map<String, T> all, String name) {
    return Optional.ofNullable(all.get(name)).orElseThrow();
  }
}
