package org.gradus.protocol;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/**
 * Everything that can be told to a test.
 *
 * @param signals what is read, by name
 * @param scales rating scales, by name
 * @param signs signs and symptoms, by name
 * @param questions what is answered before the test, by name
 */
public record Instruments(
    Map<String, Signal> signals,
    Map<String, Scale> scales,
    Map<String, Sign> signs,
    Map<String, Question> questions) {

  public Instruments {
    signals = Collections.unmodifiableMap(new LinkedHashMap<>(signals));
    scales = Collections.unmodifiableMap(new LinkedHashMap<>(scales));
    signs = Collections.unmodifiableMap(new LinkedHashMap<>(signs));
    questions = Collections.unmodifiableMap(new LinkedHashMap<>(questions));
  }

  /** The signal of a name that the protocol is known to have. */
  public Signal signal(String name) {
    return present(signals, name);
  }

  /** The sign of a name that the protocol is known to have. */
  public Sign sign(String name) {
    return present(signs, name);
  }

  /** The question of a name that the protocol is known to have. */
  public Question question(String name) {
    return present(questions, name);
  }

  private static <T> T present(Map<String, T> all, String name) {
    return Optional.ofNullable(all.get(name)).orElseThrow();
  }
}
