package org.gradus.examples.benchmarks;

import java.util.EnumMap;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.gradus.examples.benchmarks.Translation.Term;

/**
 * What languages see that ask for variables by name. The readings of a moment are boxed and put
 * into a map beforehand, so that this costs the measured pass nothing. Definitions are evaluated
 * when they are first asked for and then kept while the pass lasts.
 */
final class Variables {

  private static final Map<String, Term> TERMS = new HashMap<>();

  static {
    for (Term term : Term.values()) {
      TERMS.put(term.word(), term);
    }
  }

  private final Map<String, Optional<Object>> readings;
  private final Map<Term, Optional<Object>> kept = new EnumMap<>(Term.class);
  private final Function<Term, Object> definitions;

  Variables(AskedMoment moment, Function<Term, Object> definitions) {
    this.readings = readings(moment);
    this.definitions = definitions;
  }

  void forgetDefinitions() {
    kept.clear();
  }

  Optional<Object> find(String name) {
    Optional<Object> reading = readings.get(name);
    if (reading != null) {
      return reading;
    }
    Term term = TERMS.get(name);
    return term == null ? Optional.empty() : definition(term);
  }

  private Optional<Object> definition(Term term) {
    Optional<Object> known = kept.get(term);
    if (known == null) {
      known = Optional.of(definitions.apply(term));
      kept.put(term, known);
    }
    return known;
  }

  private static Map<String, Optional<Object>> readings(AskedMoment moment) {
    Map<String, Optional<Object>> readings = new HashMap<>();
    readings.put("heartRate", Optional.of(moment.heartRate));
    readings.put("heartRateBefore", Optional.of(moment.heartRateBefore));
    readings.put("previousHeartRate", Optional.of(moment.previousHeartRate));
    readings.put("systolic", Optional.of(moment.systolic));
    readings.put("diastolic", Optional.of(moment.diastolic));
    readings.put("previousSystolic", Optional.of(moment.previousSystolic));
    readings.put("uprightSystolic", Optional.of(moment.uprightSystolic));
    readings.put("restingSystolic", Optional.of(moment.restingSystolic));
    readings.put("breathless", Optional.of(moment.breathless));
    readings.put("legPain", Optional.of(moment.legPain));
    readings.put("rating", Optional.of(moment.rating));
    readings.put("stageTime", Optional.of(moment.stageTime));
    readings.put("age", Optional.of(moment.age));
    readings.put("measuredMax", Optional.of(moment.measuredMaxHeartRate));
    readings.put("previousHeartRateKnown", Optional.of(!Double.isNaN(moment.previousHeartRate)));
    readings.put("previousSystolicKnown", Optional.of(!Double.isNaN(moment.previousSystolic)));
    readings.put("uprightSystolicKnown", Optional.of(!Double.isNaN(moment.uprightSystolic)));
    readings.put("measuredMaxKnown", Optional.of(!Double.isNaN(moment.measuredMaxHeartRate)));
    readings.put("chestPain", Optional.of(moment.chestPain));
    readings.put("confusedOrUnsteady", Optional.of(moment.confusedOrUnsteady));
    readings.put("lightHeaded", Optional.of(moment.lightHeaded));
    readings.put("paleOrCold", Optional.of(moment.paleOrCold));
    readings.put("irregularPulse", Optional.of(moment.irregularPulse));
    readings.put("asksToStop", Optional.of(moment.asksToStop));
    readings.put("equipmentFault", Optional.of(moment.equipmentFault));
    readings.put("handrail", Optional.of(moment.handrail));
    return readings;
  }
}
