package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.gradus.session.Readings.answer;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pulse;
import static org.gradus.session.Times.at;

import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.GradusException;
import org.gradus.diagnostic.InputRefused;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.diagnostic.ValueRefused;
import org.gradus.history.Json;
import org.gradus.library.Library;
import org.gradus.report.Report;
import org.gradus.session.Admission;
import org.gradus.session.Event;
import org.gradus.session.Session;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Wrong input of a host is refused with a type, a code, the value and the remedy. */
class TypedRefusalsTest {

  @ParameterizedTest
  @ValueSource(strings = {"PT0S", "PT-15S", "PT0.0001S", "PT25H", "PT9000000000000000S"})
  void aPulseIsCountedForAPossibleTime(String window) {
    assertThatThrownBy(() -> pulse(26, Duration.parse(window)))
        .isInstanceOf(ValueRefused.class)
        .hasMessageContaining("such as 15 s");
  }

  @Test
  void anAmountIsFinite() {
    assertThatThrownBy(() -> heartRate(Double.POSITIVE_INFINITY))
        .isInstanceOfSatisfying(
            ValueRefused.class,
            refused -> {
              assertThat(refused.code()).isEqualTo(Code.G623);
              assertThat(refused.arguments())
                  .containsExactly("an amount in bpm", "Infinity", "give a finite number");
              assertThat(Json.of(refused)).contains("\"ValueRefused\"", "\"G623\"");
            });
    assertThatThrownBy(() -> Quantity.of(1, Unit.KPA).in(Unit.ONE))
        .hasMessageContaining("plain numbers");
  }

  @Test
  void aPageNeedsAReport() {
    assertThatThrownBy(() -> Report.html(List.of())).isInstanceOf(ValueRefused.class);
  }

  @Test
  void anEventOfReadingsHasAReading() {
    Session session = Walks.walking(Walks.ines());
    int before = session.events().size();
    Event empty = new Event.Read(List.of(), at("0:10"), at("0:10"));
    List.<Runnable>of(
            () -> session.record(at("0:10")),
            () -> session.recordTaken(at("0:10"), at("0:05")),
            () -> session.tell(empty),
            () -> session.asEvent(before + 1).tell(empty))
        .forEach(
            call ->
                assertThatThrownBy(call::run)
                    .isInstanceOf(ReadingRefused.class)
                    .hasMessageContaining("at least one reading"));
    assertThat(session.admit(at("0:10"))).isInstanceOf(Admission.Refused.class);
    assertThat(session.events()).hasSize(before);
    assertThat(session.record(at("0:10"), heartRate(100)).event()).isEqualTo(before + 1);
  }

  // As earlier versions may have kept it.
  @Test
  void aRecordWithAnEmptyEventIsStillTakenUp() {
    Session session = Session.open(Walks.walking(Walks.ines()).protocol(), Walks.ines());
    session.record(at("0:00"), answer("unwell_today", false));
    List<Event> events =
        List.of(session.events().get(0), new Event.Read(List.of(), at("0:01"), at("0:01")));
    assertThat(Session.resume(session.protocol(), Walks.ines(), events, (n, e, a) -> {}).events())
        .isEqualTo(events);
  }

  @Test
  void aFolderThatIsNotThereIsRefusedWithItsCause(@TempDir Path folder) {
    assertThatThrownBy(() -> Library.load(folder.resolve("none")))
        .isInstanceOf(InputRefused.class)
        .isInstanceOf(GradusException.class)
        .hasMessageContaining("none cannot be read: there is no ")
        .hasCauseInstanceOf(NoSuchFileException.class);
  }
}
