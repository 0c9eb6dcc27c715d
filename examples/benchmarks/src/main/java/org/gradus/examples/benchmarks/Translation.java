package org.gradus.examples.benchmarks;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The rules and definitions of the standard walk, one by one, in the syntax that the compared
 * languages have in common. Settings stand in it as figures, as they do in a plan. Comparisons are
 * plain, without the tolerance of Gradus: the numbers of the moments are whole.
 */
final class Translation {

  private Translation() {}

  /** A definition. */
  enum Term {
    MAX_HEART_RATE(0, "maxHeartRate", "measuredMaxKnown ? measuredMax : 220.0 - age"),
    CEILING_RATE(1, "ceilingRate", "FLOOR(85.0 * maxHeartRate / 100.0 + 0.5)"),
    SYSTOLIC_BEFORE(
        2,
        "systolicBefore",
        "previousSystolicKnown ? previousSystolic"
            + " : (uprightSystolicKnown ? uprightSystolic : restingSystolic)"),
    STEADY(3, "steady", "ABS(heartRate - heartRateBefore) <= 5.0"),
    USABLE(4, "usable", "steady && heartRate >= 110.0 && heartRate <= ceilingRate"),
    HIGH_ENOUGH(5, "highEnough", "heartRate >= MIN(135.0, ceilingRate - 10.0)");

    private final int place;
    private final String word;
    private final String text;

    Term(int place, String word, String text) {
      this.place = place;
      this.word = word;
      this.text = text;
    }

    /** Where its value is kept. */
    int place() {
      return place;
    }

    /** Its name in the expressions. */
    String word() {
      return word;
    }

    /** Its own expression. */
    String text() {
      return text;
    }

    boolean isCondition() {
      return this == STEADY || this == USABLE || this == HIGH_ENOUGH;
    }
  }

  private static final Map<String, String> RULES = new LinkedHashMap<>();

  static {
    RULES.put("chest-pain", "chestPain");
    RULES.put("nervous-system", "confusedOrUnsteady || lightHeaded");
    RULES.put("poor-perfusion", "paleOrCold");
    RULES.put("rhythm", "irregularPulse");
    RULES.put("wish", "asksToStop");
    RULES.put("fault", "equipmentFault");
    RULES.put("breathless", "breathless >= 3.0");
    RULES.put("claudication", "legPain >= 3.0");
    RULES.put("systolic-high", "systolic > 250.0");
    RULES.put("diastolic-high", "diastolic > 115.0");
    RULES.put("systolic-falls", "systolic < systolicBefore - 10.0");
    RULES.put("systolic-below-standing", "uprightSystolicKnown && systolic < uprightSystolic");
    RULES.put(
        "rate-does-not-rise",
        "previousHeartRateKnown && stageTime >= 150.0 && heartRate < previousHeartRate");
    RULES.put("effort", "rating > 17.0");
    RULES.put("rail", "handrail");
    RULES.put("ceiling", "heartRate > ceilingRate");
    RULES.put("steady-and-high", "steady && highEnough");
    RULES.put("enough", "usable");
    RULES.put("not-yet-steady", "!steady");
    RULES.put("never-steady", "!steady");
    RULES.put("next", "true");
  }

  /** The expressions of all rules. */
  static List<String> rules() {
    return List.copyOf(RULES.values());
  }

  /** The names of all rules, in the same order. */
  static List<String> ids() {
    return List.copyOf(RULES.keySet());
  }

  /** The names of the numbers that are read, as the properties of {@link Sheet} have them. */
  static final List<String> NUMBERS =
      List.of(
          "heartRate",
          "heartRateBefore",
          "previousHeartRate",
          "systolic",
          "diastolic",
          "previousSystolic",
          "uprightSystolic",
          "restingSystolic",
          "breathless",
          "legPain",
          "rating",
          "stageTime",
          "age",
          "measuredMax");

  /** The names of the truths that are read. */
  static final List<String> TRUTHS =
      List.of(
          "previousHeartRateKnown",
          "previousSystolicKnown",
          "uprightSystolicKnown",
          "measuredMaxKnown",
          "chestPain",
          "confusedOrUnsteady",
          "lightHeaded",
          "paleOrCold",
          "irregularPulse",
          "asksToStop",
          "equipmentFault",
          "handrail");
}
