package org.gradus.session;

import java.util.Map;
import java.util.function.Predicate;
import org.gradus.protocol.Posture;

/**
 * The readings of a test as rules ask for them. Immutable.
 *
 * @param answers by question, or by attribute of the person
 * @param baselines read before the first stage, by posture and signal
 * @param latest the newest reading of each signal
 * @param atFinish the newest of the exercise, once it has ended
 * @param named by the name that the protocol gives to a reading
 */
record ToldReadings(
    Map<String, StoredReading> answers,
    Map<Posture, Map<String, StoredReading>> baselines,
    Map<String, StoredReading> latest,
    Map<String, StoredReading> atFinish,
    Map<String, StoredReading> named) {

  /** Nothing has been told. */
  static final ToldReadings NONE =
      new ToldReadings(Map.of(), Map.of(), Map.of(), Map.of(), Map.of());

  /** Those of one posture, by signal. */
  Map<String, StoredReading> before(Posture posture) {
    return baselines.getOrDefault(posture, Map.of());
  }

  ToldReadings withAnswers(Map<String, StoredReading> more) {
    return new ToldReadings(
        PersistentCollections.and(answers, more), baselines, latest, atFinish, named);
  }

  ToldReadings withBaseline(Posture posture, String signal, StoredReading taken) {
    Map<String, StoredReading> one = PersistentCollections.with(before(posture), signal, taken);
    return new ToldReadings(
        answers, PersistentCollections.with(baselines, posture, one), latest, atFinish, named);
  }

  ToldReadings withLatest(String signal, StoredReading taken) {
    return new ToldReadings(
        answers, baselines, PersistentCollections.with(latest, signal, taken), atFinish, named);
  }

  ToldReadings withAtFinish(String signal, StoredReading taken) {
    return new ToldReadings(
        answers, baselines, latest, PersistentCollections.with(atFinish, signal, taken), named);
  }

  ToldReadings withNamed(Map<String, StoredReading> readings) {
    return new ToldReadings(answers, baselines, latest, atFinish, readings);
  }

  /** When the exercise ends: the newest readings are those at its finish. */
  ToldReadings finished() {
    return new ToldReadings(
        answers, baselines, latest, PersistentCollections.and(atFinish, latest), named);
  }

  /** Without the newest readings of other signals. */
  ToldReadings keepingLatest(Predicate<String> signals) {
    return new ToldReadings(
        answers, baselines, PersistentCollections.keeping(latest, signals), atFinish, named);
  }
}
