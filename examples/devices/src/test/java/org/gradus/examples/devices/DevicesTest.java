package org.gradus.examples.devices;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.bundled.Bundled;
import org.gradus.capacity.Capacity;
import org.gradus.history.TestRecord;
import org.gradus.session.Ending;
import org.gradus.session.Event;
import org.gradus.session.Phase;
import org.gradus.session.Reading;
import org.gradus.session.Session;
import org.gradus.session.StageResult;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/** Devices run a whole test, and what goes wrong with them is dealt with. */
class DevicesTest {

  private final List<String> log = new ArrayList<>();

  @Test
  void devicesRunAWholeTest() {
    Session session = Devices.run(log::add, (second, room) -> {});
    assertThat(session.outcome().ending()).as(log.toString()).contains(Ending.RECOVERED);
    assertThat(log).as("READY, two stages more, FINISH and END").hasSize(5);
    assertThat(log.get(0)).as("five minutes of rest, then the cuff").startsWith("5:30 READY");
    assertThat(session.outcome().stages()).hasSizeGreaterThanOrEqualTo(2);
    assertThat(Capacity.of(session.outcome()).headline()).isPresent();
    assertThat(TestRecord.of(session, Optional.empty()).verify(Bundled.library())).isEmpty();
  }

  // The treadmill sets 0.1 km/h: 1.7 mph, 2.736 km/h, is 2.7.
  @Test
  void theLoadThatWasReallySetIsRecorded() {
    Session session = Devices.run(log::add, (second, room) -> {});
    for (StageResult stage : session.outcome().stages()) {
      double speed = stage.loads().get(0).value().in(Unit.KMH);
      assertThat(speed * 10).as(stage.id()).isEqualTo(Math.rint(speed * 10), withinOne());
    }
    assertThat(session.outcome().stages().get(0).loads().get(0).value().in(Unit.KMH))
        .isEqualTo(2.7, withinOne());
  }

  private static org.assertj.core.data.Offset<Double> withinOne() {
    return org.assertj.core.data.Offset.offset(1e-9);
  }

  @Test
  void everyHeartRateOfTheProtocolComesFromTheStrap() {
    Session session = Devices.run(log::add, (second, room) -> {});
    List<Reading> rates =
        session.events().stream()
            .filter(Event.Read.class::isInstance)
            .flatMap(event -> ((Event.Read) event).readings().stream())
            .filter(reading -> reading.subject().equals("heart_rate"))
            .toList();
    long minutes =
        session.outcome().stages().stream().mapToLong(stage -> stage.lasted().toMinutes()).sum();
    assertThat(rates.size()).as("one at rest and one a minute").isGreaterThan((int) minutes);
  }

  @Test
  void aPulledKeyStopsTheTest() {
    Session session =
        Devices.run(
            log::add,
            (second, room) -> {
              if (second == 500) {
                room.treadmill().pullSafetyKey();
              }
            });
    assertThat(session.outcome().stopped()).isTrue();
    assertThat(log).anyMatch(line -> line.contains("look after the person"));
  }

  // Off for the last reading of the first stage: the decision waits for it.
  @Test
  void aStrapThatSlipsIsToldWithItsReason() {
    Session session =
        Devices.run(
            log::add,
            (second, room) -> {
              boolean inStage = room.session().phase() == Phase.STAGE;
              room.strap().wear(!(inStage && second >= 500 && second < 530));
            });
    assertThat(log).anyMatch(line -> line.contains("no heart rate came from"));
    assertThat(session.outcome().ending()).isPresent();
  }
}
