package org.gradus.exchange.device;

import org.gradus.diagnostic.ValueRefused;

/**
 * A moment by the clock of a device, which may be wrong: no reading takes its time from it.
 *
 * @param year from 1582; 0: not known
 * @param month from 1 to 12; 0: not known
 * @param day from 1 to 31; 0: not known
 * @param hour from 0 to 23
 * @param minute from 0 to 59
 * @param second from 0 to 59
 */
public record DeviceTime(int year, int month, int day, int hour, int minute, int second) {

  private static final int FIRST_YEAR = 1582;
  private static final int LAST_YEAR = 9999;

  /**
   * A moment.
   *
   * @throws ValueRefused when a part lies outside its range
   */
  public DeviceTime {
    if (!isPossible(year, month, day, hour, minute, second)) {
      throw new ValueRefused(
          "a time of a device",
          shown(year, month, day, hour, minute, second),
          "give a date and a time that exist");
    }
  }

  static DeviceTime read(PayloadReader reader) {
    String field = "the time";
    int year = reader.unsigned(2, field);
    int month = reader.unsigned(1, field);
    int day = reader.unsigned(1, field);
    int hour = reader.unsigned(1, field);
    int minute = reader.unsigned(1, field);
    int second = reader.unsigned(1, field);
    if (!isPossible(year, month, day, hour, minute, second)) {
      throw reader.refused(
          "gives a time that does not exist: " + shown(year, month, day, hour, minute, second));
    }
    return new DeviceTime(year, month, day, hour, minute, second);
  }

  void write(PayloadWriter writer) {
    writer.number(2, year).number(1, month).number(1, day);
    writer.number(1, hour).number(1, minute).number(1, second);
  }

  private static boolean isPossible(
      int year, int month, int day, int hour, int minute, int second) {
    return (year == 0 || (year >= FIRST_YEAR && year <= LAST_YEAR))
        && isUpTo(12, month)
        && isUpTo(31, day)
        && isUpTo(23, hour)
        && isUpTo(59, minute)
        && isUpTo(59, second);
  }

  private static boolean isUpTo(int most, int part) {
    return part >= 0 && part <= most;
  }

  private static String shown(int year, int month, int day, int hour, int minute, int second) {
    return String.format(
        java.util.Locale.ROOT,
        "%04d-%02d-%02d %02d:%02d:%02d",
        year,
        month,
        day,
        hour,
        minute,
        second);
  }
}
