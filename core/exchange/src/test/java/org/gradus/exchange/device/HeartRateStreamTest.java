package org.gradus.exchange.device;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.gradus.session.Times.at;
import static org.gradus.session.Times.seconds;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.gradus.diagnostic.ValueRefused;
import org.gradus.exchange.device.HeartRateMessage.Contact;
import org.gradus.exchange.device.HeartRateStream.Limits;
import org.gradus.exchange.device.StreamReading.NotTaken;
import org.gradus.exchange.device.StreamReading.Taken;
import org.gradus.protocol.Posture;
import org.gradus.session.Agenda;
import org.gradus.session.Reading;
import org.gradus.session.Readings;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/** A stream of heart rates becomes the readings that a protocol counts. */
class HeartRateStreamTest {

  private final HeartRateStream stream = new HeartRateStream(Limits.USUAL);

  private void everySecond(int from, int to, double bpm) {
    for (int second = from; second <= to; second++) {
      stream.rate(seconds(second), bpm);
    }
  }

  // 0:45 to 0:52 at 100 and 0:52 to 1:00 at 115: (7 * 100 + 8 * 115) / 15 = 108.
  @Test
  void aReadingIsTheMeanOfItsWindow() {
    everySecond(0, 52, 100);
    everySecond(53, 65, 115);
    assertThat(stream.read(at("0:45"), at("1:00")))
        .isEqualTo(new Taken(at("1:00"), Readings.heartRate(108)));
  }

  // 10 intervals of 600 ms and 10 of 500 ms: 20 beats in 11 s are 109 a minute. The mean of the
  // rates, 100 and 120, would be 110.
  @Test
  void beatsAreCountedAndNotTheirRatesAveraged() {
    Duration now = at("1:00");
    for (int beat = 0; beat < 20; beat++) {
      Duration interval = Duration.ofMillis(beat < 10 ? 600 : 500);
      now = now.plus(interval);
      stream.beat(now, interval);
    }
    assertThat(stream.read(at("1:00"), now)).isEqualTo(new Taken(now, Readings.heartRate(109)));
  }

  @Test
  void aGapIsNoReading() {
    everySecond(0, 50, 100);
    everySecond(55, 60, 100);
    assertThat(stream.read(at("0:45"), at("1:00")))
        .isEqualTo(
            new NotTaken(
                "no heart rate came from 0:50 to 0:54; check the strap and count by hand"));
    assertThat(stream.read(at("0:30"), at("0:45"))).isInstanceOf(Taken.class);
    assertThat(stream.read(at("1:00"), at("1:15"))).isInstanceOf(NotTaken.class);
  }

  @Test
  void aStrapThatLiesOffTheSkinIsAGap() {
    for (int second = 0; second <= 60; second++) {
      Contact contact = second < 50 ? Contact.THERE : Contact.MISSING;
      stream.message(
          seconds(second), new HeartRateMessage(100, contact, OptionalInt.empty(), List.of()));
    }
    assertThat(stream.read(at("0:30"), at("0:45"))).isInstanceOf(Taken.class);
    assertThat(stream.read(at("0:45"), at("1:00"))).isInstanceOf(NotTaken.class);
  }

  @Test
  void aJumpThatNoHeartMakesIsNoReading() {
    everySecond(0, 50, 100);
    stream.rate(seconds(51), 180);
    everySecond(52, 60, 100);
    assertThat(stream.read(at("0:45"), at("1:00")))
        .isEqualTo(
            new NotTaken(
                "the heart rate jumps from 100 to 180 bpm at 0:51;"
                    + " check the strap and count by hand"));
  }

  @Test
  void aRestingRateKeepsItsPosture() {
    everySecond(0, 300, 66);
    Agenda.Item item =
        new Agenda.Item(
            List.of(toRead("heart_rate", Unit.BPM), toRead("systolic", Unit.MMHG)),
            at("5:00"),
            at("5:00"),
            Agenda.State.DUE,
            Optional.of("seated"));
    assertThat(stream.read(item))
        .isEqualTo(new Taken(at("5:00"), Readings.resting(Readings.heartRate(66))));
    Agenda.Item cuff =
        new Agenda.Item(
            List.of(toRead("systolic", Unit.MMHG)),
            at("5:00"),
            at("5:00"),
            Agenda.State.DUE,
            Optional.empty());
    assertThat(HeartRateStream.reads(cuff)).isFalse();
    assertThatThrownBy(() -> stream.read(cuff)).isInstanceOf(ValueRefused.class);
  }

  private static Agenda.ToRead toRead(String signal, Unit unit) {
    return new Agenda.ToRead(
        signal,
        Optional.of(Posture.RESTING),
        new Type.Measure(unit.kind()),
        Optional.of(unit),
        List.of());
  }

  @Test
  void timesGoForward() {
    stream.rate(at("1:00"), 100);
    assertThatThrownBy(() -> stream.rate(at("1:00"), 100))
        .isInstanceOf(ValueRefused.class)
        .hasMessageContaining("in order");
  }

  // Whatever the heart does slowly: the reading lies between its least and its most.
  @Property
  void aReadingLiesBetweenTheRatesOfItsWindow(
      @ForAll @Size(value = 16) List<@IntRange(min = 100, max = 124) Integer> rates) {
    HeartRateStream random = new HeartRateStream(Limits.USUAL);
    for (int second = 0; second < rates.size(); second++) {
      random.rate(seconds(second), rates.get(second));
    }
    Taken taken = (Taken) random.read(at("0:00"), at("0:15"));
    double rate = ((Reading.Measured) taken.reading()).value().amount();
    assertThat(rate)
        .isBetween(
            rates.stream().mapToDouble(each -> each).min().orElseThrow(),
            rates.stream().mapToDouble(each -> each).max().orElseThrow());
  }
}
