package org.gradus.examples.benchmarks;

/**
 * The same rules as an experienced programmer would write them down in Java: three values, NaN for
 * what is not known, two sides within one part in a thousand million equal. Knows nothing of files,
 * texts, reasons or resolution.
 */
final class HandWritten implements Evaluator {

  // No is the lowest and yes the highest, so that and is the lower and or the higher of two.
  private static final int NO = -1;
  private static final int OPEN = 0;
  private static final int YES = 1;

  private static final double SAME = 1e-9;

  private final AskedMoment[] moments;

  HandWritten(AskedMoment[] moments) {
    this.moments = moments;
  }

  @Override
  public long pass(int moment) {
    AskedMoment now = moments[moment];
    double ceiling = ceilingRate(now);
    int steady = atMost(Math.abs(now.heartRate - now.heartRateBefore), 5);
    long answers = 0;
    answers = Answers.and(answers, now.chestPain);
    answers = Answers.and(answers, now.confusedOrUnsteady || now.lightHeaded);
    answers = Answers.and(answers, now.paleOrCold);
    answers = Answers.and(answers, now.irregularPulse);
    answers = Answers.and(answers, now.asksToStop);
    answers = Answers.and(answers, now.equipmentFault);
    answers = and(answers, atLeast(now.breathless, 3));
    answers = and(answers, atLeast(now.legPain, 3));
    answers = and(answers, more(now.systolic, 250));
    answers = and(answers, more(now.diastolic, 115));
    answers = and(answers, less(now.systolic, systolicBefore(now) - 10));
    answers = and(answers, belowStanding(now));
    answers = and(answers, doesNotRise(now));
    answers = and(answers, more(now.rating, 17));
    answers = Answers.and(answers, now.handrail);
    answers = and(answers, more(now.heartRate, ceiling));
    answers =
        and(
            answers,
            steady == NO
                ? NO
                : Math.min(steady, atLeast(now.heartRate, Math.min(135, ceiling - 10))));
    answers = and(answers, steady == NO ? NO : Math.min(steady, inRange(now.heartRate, ceiling)));
    answers = and(answers, -steady);
    answers = and(answers, -steady);
    return Answers.and(answers, true);
  }

  private static double ceilingRate(AskedMoment now) {
    double max =
        !Double.isNaN(now.measuredMaxHeartRate)
            ? now.measuredMaxHeartRate
            : now.lowersHeartRate == 0 ? 220 - now.age : Double.NaN;
    double share = 85 * max / 100;
    double below = Math.floor(share);
    return atLeast(share - below, 0.5) == YES ? below + 1 : below;
  }

  private static double systolicBefore(AskedMoment now) {
    if (!Double.isNaN(now.previousSystolic)) {
      return now.previousSystolic;
    }
    return !Double.isNaN(now.uprightSystolic) ? now.uprightSystolic : now.restingSystolic;
  }

  private static int belowStanding(AskedMoment now) {
    return Double.isNaN(now.uprightSystolic) ? NO : less(now.systolic, now.uprightSystolic);
  }

  private static int doesNotRise(AskedMoment now) {
    if (Double.isNaN(now.previousHeartRate)) {
      return NO;
    }
    int late = atLeast(now.stageTime, 150);
    return late == NO ? NO : Math.min(late, less(now.heartRate, now.previousHeartRate));
  }

  private static int inRange(double heartRate, double ceiling) {
    return Math.min(atLeast(heartRate, 110), atMost(heartRate, ceiling));
  }

  private static long and(long answers, int answer) {
    return Answers.and(
        answers, answer == OPEN ? Answers.UNKNOWN : answer == YES ? Answers.YES : Answers.NO);
  }

  private static int more(double a, double b) {
    return Double.isNaN(a) || Double.isNaN(b) ? OPEN : isMore(a - b, a, b) ? YES : NO;
  }

  private static boolean isMore(double apart, double a, double b) {
    return apart > SAME * Math.abs(a) && apart > SAME * Math.abs(b);
  }

  private static int less(double a, double b) {
    return more(b, a);
  }

  private static int atLeast(double a, double b) {
    return -less(a, b);
  }

  private static int atMost(double a, double b) {
    return -more(a, b);
  }
}
