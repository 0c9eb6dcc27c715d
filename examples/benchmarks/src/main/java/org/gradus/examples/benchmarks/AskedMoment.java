package org.gradus.examples.benchmarks;

import java.util.SplittableRandom;

/**
 * What is known at one moment of an invented test: everything the rules of the standard walk ask
 * for. A number that is not known is NaN.
 */
public final class AskedMoment {

  double heartRate;
  double heartRateBefore;
  double previousHeartRate;
  double systolic;
  double diastolic;
  double previousSystolic;
  double uprightSystolic;
  double restingSystolic;
  double breathless;
  double legPain;
  double rating;
  double stageTime;
  double age;
  double measuredMaxHeartRate;
  // 1, 0 or NaN, as it is asked and may stay unanswered.
  double lowersHeartRate;

  // Signs are never unknown: what is not reported is not there.
  boolean chestPain;
  boolean confusedOrUnsteady;
  boolean lightHeaded;
  boolean paleOrCold;
  boolean irregularPulse;
  boolean asksToStop;
  boolean equipmentFault;
  boolean handrail;

  private AskedMoment() {}

  /**
   * So many different moments, the same every time.
   *
   * @param gaps whether some readings and answers are missing
   */
  static AskedMoment[] several(int count, boolean gaps) {
    SplittableRandom random = new SplittableRandom(2026);
    AskedMoment[] moments = new AskedMoment[count];
    for (int i = 0; i < count; i++) {
      moments[i] = random(random);
      if (gaps) {
        moments[i].lose(random);
      }
    }
    return moments;
  }

  // Mostly a test that goes well, so that few rules end early, and every rule holds now and then.
  private static AskedMoment random(SplittableRandom random) {
    AskedMoment moment = new AskedMoment();
    boolean first = random.nextInt(4) == 0;
    moment.heartRate = random.nextInt(90, 175);
    moment.heartRateBefore = moment.heartRate - random.nextInt(-3, 10);
    moment.previousHeartRate = first ? Double.NaN : moment.heartRate - random.nextInt(-2, 25);
    moment.systolic = 2 * random.nextInt(55, 130);
    moment.diastolic = 2 * random.nextInt(30, 62);
    moment.restingSystolic = 2 * random.nextInt(50, 75);
    moment.uprightSystolic = random.nextInt(3) == 0 ? Double.NaN : moment.restingSystolic + 4;
    moment.previousSystolic = first ? Double.NaN : moment.systolic - 2 * random.nextInt(-9, 20);
    moment.breathless = random.nextInt(20) == 0 ? 3 : random.nextInt(3);
    moment.legPain = random.nextInt(20) == 0 ? 4 : random.nextInt(3);
    moment.rating = random.nextInt(9, 19);
    moment.stageTime = random.nextInt(60, 240);
    moment.age = random.nextInt(18, 66);
    moment.measuredMaxHeartRate = random.nextInt(5) == 0 ? random.nextInt(160, 200) : Double.NaN;
    moment.lowersHeartRate = 0;
    moment.chestPain = random.nextInt(40) == 0;
    moment.confusedOrUnsteady = random.nextInt(40) == 0;
    moment.lightHeaded = random.nextInt(40) == 0;
    moment.paleOrCold = random.nextInt(40) == 0;
    moment.irregularPulse = random.nextInt(40) == 0;
    moment.asksToStop = random.nextInt(40) == 0;
    moment.equipmentFault = random.nextInt(40) == 0;
    moment.handrail = random.nextInt(8) == 0;
    return moment;
  }

  private void lose(SplittableRandom random) {
    heartRate = kept(heartRate, random);
    heartRateBefore = kept(heartRateBefore, random);
    systolic = kept(systolic, random);
    diastolic = kept(diastolic, random);
    restingSystolic = kept(restingSystolic, random);
    rating = kept(rating, random);
    lowersHeartRate = random.nextInt(10) == 0 ? 1 : kept(0, random);
  }

  private static double kept(double value, SplittableRandom random) {
    return random.nextInt(5) == 0 ? Double.NaN : value;
  }
}
