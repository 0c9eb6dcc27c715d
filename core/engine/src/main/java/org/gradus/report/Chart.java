package org.gradus.report;

import java.util.List;
import java.util.Optional;

/**
 * Heart rate against uptake, as numbers.
 *
 * @param points the stages
 * @param answer where the line is read, with the interval around it
 */
record Chart(List<Point> points, Optional<Reading> answer) {

  /**
   * The end of a stage.
   *
   * @param stage which
   * @param uptake in mL/kg/min
   * @param heartRate in bpm
   * @param used whether the estimate rests on it
   */
  record Point(String stage, double uptake, double heartRate, boolean used) {}

  /**
   * Where a capacity is read.
   *
   * @param heartRate at which heart rate
   * @param vo2max the capacity
   * @param low the lower end of its interval
   * @param high the upper end
   */
  record Reading(double heartRate, double vo2max, double low, double high) {}

  Chart {
    points = List.copyOf(points);
  }

  /** The same in a sentence, for those who do not see it. */
  String words() {
    StringBuilder words = new StringBuilder("Heart rate against oxygen uptake. ");
    for (Point point : points) {
      words
          .append(point.stage())
          .append(": ")
          .append(number(point.heartRate()))
          .append(" bpm at ")
          .append(number(point.uptake()))
          .append(" mL/kg/min")
          .append(point.used() ? ", used. " : ", not used. ");
    }
    answer.ifPresent(
        read ->
            words.append(
                "Read at "
                    + number(read.heartRate())
                    + " bpm: "
                    + number(read.vo2max())
                    + " mL/kg/min, 95 % interval "
                    + number(read.low())
                    + " to "
                    + number(read.high())
                    + "."));
    return words.toString().strip();
  }

  /** A number to one decimal, without a needless one. */
  static String number(double value) {
    return org.gradus.unit.Quantity.plain(Math.rint(value * 10) / 10);
  }
}
