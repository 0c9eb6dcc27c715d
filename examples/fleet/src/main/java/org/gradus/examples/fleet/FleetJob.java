package org.gradus.examples.fleet;

import org.apache.flink.api.common.eventtime.Watermark;
import org.apache.flink.api.common.eventtime.WatermarkGenerator;
import org.apache.flink.api.common.eventtime.WatermarkOutput;
import org.apache.flink.api.common.eventtime.WatermarkStrategy;
import org.apache.flink.streaming.api.datastream.DataStream;
import org.apache.flink.streaming.api.datastream.SingleOutputStreamOperator;

/**
 * The streams that come out of live tests.
 *
 * @param answers every decision
 * @param refusals everything that was refused
 * @param records the record of each test that is over
 */
record FleetJob(
    DataStream<FleetAnswer> answers,
    DataStream<FleetRefusal> refusals,
    DataStream<String> records) {

  /**
   * Puts live tests between streams.
   *
   * @param messages what test rooms send. Its watermarks are the clock of all tests: a decision
   *     that changes by itself is given out when they have passed it
   * @param protocols versions of protocols, as they are published
   */
  static FleetJob of(
      DataStream<RoomMessage> messages, DataStream<ProtocolFiles> protocols, LiveTests tests) {
    SingleOutputStreamOperator<FleetAnswer> answers =
        messages
            .keyBy(RoomMessage::test)
            .connect(
                protocols
                    .assignTimestampsAndWatermarks(holdsNoTimeBack())
                    .broadcast(LiveTests.VERSIONS, LiveTests.NEWEST))
            .process(tests)
            .name("live tests")
            .uid("live-tests");
    return new FleetJob(
        answers,
        answers.getSideOutput(LiveTests.REFUSED),
        answers.getSideOutput(LiveTests.RECORDS));
  }

  // Days may pass without a new protocol; the tests do not wait for one.
  private static <T> WatermarkStrategy<T> holdsNoTimeBack() {
    return WatermarkStrategy.forGenerator(
        context ->
            new WatermarkGenerator<T>() {
              @Override
              public void onEvent(T event, long time, WatermarkOutput output) {
                output.emitWatermark(Watermark.MAX_WATERMARK);
              }

              @Override
              public void onPeriodicEmit(WatermarkOutput output) {
                output.emitWatermark(Watermark.MAX_WATERMARK);
              }
            });
  }
}
