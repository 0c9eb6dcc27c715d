package org.gradus.examples.benchmarks;

import java.util.Arrays;
import org.gradus.examples.benchmarks.Translation.Term;

/**
 * What the expressions of another language see of a moment: the readings as typed properties, and
 * the definitions, each evaluated when it is first asked for and then kept while the pass lasts.
 */
public final class Sheet {

  /** Evaluates the expressions of definitions. */
  interface Definitions {
    boolean truth(Term term, Sheet sheet);

    double number(Term term, Sheet sheet);
  }

  private static final int TERMS = Term.values().length;

  private final Definitions definitions;
  private final double[] numbers = new double[TERMS];
  private final boolean[] truths = new boolean[TERMS];
  private final boolean[] done = new boolean[TERMS];
  private AskedMoment now;

  Sheet(Definitions definitions, AskedMoment first) {
    this.definitions = definitions;
    this.now = first;
  }

  void show(AskedMoment moment) {
    now = moment;
    Arrays.fill(done, false);
  }

  private double number(Term term) {
    int place = term.place();
    if (!done[place]) {
      numbers[place] = definitions.number(term, this);
      done[place] = true;
    }
    return numbers[place];
  }

  private boolean truth(Term term) {
    int place = term.place();
    if (!done[place]) {
      truths[place] = definitions.truth(term, this);
      done[place] = true;
    }
    return truths[place];
  }

  public double getHeartRate() {
    return now.heartRate;
  }

  public double getHeartRateBefore() {
    return now.heartRateBefore;
  }

  public double getPreviousHeartRate() {
    return now.previousHeartRate;
  }

  public double getSystolic() {
    return now.systolic;
  }

  public double getDiastolic() {
    return now.diastolic;
  }

  public double getPreviousSystolic() {
    return now.previousSystolic;
  }

  public double getUprightSystolic() {
    return now.uprightSystolic;
  }

  public double getRestingSystolic() {
    return now.restingSystolic;
  }

  public double getBreathless() {
    return now.breathless;
  }

  public double getLegPain() {
    return now.legPain;
  }

  public double getRating() {
    return now.rating;
  }

  public double getStageTime() {
    return now.stageTime;
  }

  public double getAge() {
    return now.age;
  }

  public double getMeasuredMax() {
    return now.measuredMaxHeartRate;
  }

  public boolean isPreviousHeartRateKnown() {
    return !Double.isNaN(now.previousHeartRate);
  }

  public boolean isPreviousSystolicKnown() {
    return !Double.isNaN(now.previousSystolic);
  }

  public boolean isUprightSystolicKnown() {
    return !Double.isNaN(now.uprightSystolic);
  }

  public boolean isMeasuredMaxKnown() {
    return !Double.isNaN(now.measuredMaxHeartRate);
  }

  public boolean isChestPain() {
    return now.chestPain;
  }

  public boolean isConfusedOrUnsteady() {
    return now.confusedOrUnsteady;
  }

  public boolean isLightHeaded() {
    return now.lightHeaded;
  }

  public boolean isPaleOrCold() {
    return now.paleOrCold;
  }

  public boolean isIrregularPulse() {
    return now.irregularPulse;
  }

  public boolean isAsksToStop() {
    return now.asksToStop;
  }

  public boolean isEquipmentFault() {
    return now.equipmentFault;
  }

  public boolean isHandrail() {
    return now.handrail;
  }

  public double getMaxHeartRate() {
    return number(Term.MAX_HEART_RATE);
  }

  public double getCeilingRate() {
    return number(Term.CEILING_RATE);
  }

  public double getSystolicBefore() {
    return number(Term.SYSTOLIC_BEFORE);
  }

  public boolean isSteady() {
    return truth(Term.STEADY);
  }

  public boolean isUsable() {
    return truth(Term.USABLE);
  }

  public boolean isHighEnough() {
    return truth(Term.HIGH_ENOUGH);
  }
}
