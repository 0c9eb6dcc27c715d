package org.gradus.examples.fleet;

import java.io.Serializable;
import java.time.Duration;
import java.util.function.LongSupplier;
import org.apache.flink.api.common.eventtime.Watermark;
import org.apache.flink.api.common.eventtime.WatermarkGenerator;
import org.apache.flink.api.common.eventtime.WatermarkOutput;
import org.apache.flink.api.common.eventtime.WatermarkStrategy;

/**
 * Watermarks of live rooms by the clock on the wall, some time behind it. The time of a test goes
 * on although nobody tells anything, so a decision that changes by itself must not wait for the
 * next message, nor for a room whose line is dead.
 *
 * <p>A message that is later than that is taken like any other, see {@link LateEvents}. One from a
 * room whose clock is ahead brings no time forward for the others.
 */
final class RoomClock implements WatermarkGenerator<RoomMessage> {

  /** The time of day in milliseconds, sent to the machines of a cluster. */
  @FunctionalInterface
  interface Day extends LongSupplier, Serializable {}

  private final Day day;
  private final long behind;

  private RoomClock(Day day, Duration behind) {
    this.day = day;
    this.behind = behind.toMillis();
  }

  /**
   * Watermarks for a stream of messages.
   *
   * @param behind how long a message may take from its room
   */
  static WatermarkStrategy<RoomMessage> of(Day day, Duration behind) {
    return WatermarkStrategy.<RoomMessage>forGenerator(context -> new RoomClock(day, behind))
        .withTimestampAssigner((message, before) -> message.time());
  }

  @Override
  public void onEvent(RoomMessage message, long time, WatermarkOutput output) {
    // The clock goes on by itself.
  }

  @Override
  public void onPeriodicEmit(WatermarkOutput output) {
    output.emitWatermark(new Watermark(day.getAsLong() - behind));
  }
}
