package org.gradus.history;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.gradus.session.Readings.answer;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.resting;
import static org.gradus.session.Times.at;
import static org.gradus.unit.Quantities.kg;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.bundled.Bundled;
import org.gradus.diagnostic.ValueRefused;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.session.Session;
import org.junit.jupiter.api.Test;

/** A record that a host keeps line by line is the record that is written at once. */
class LineLedgerTest {

  private static final Library LIBRARY = Bundled.library("graded-walk-standard");
  private static final Protocol WALK = LIBRARY.protocol("graded-walk-standard");
  private static final Person ANN =
      Person.builder()
          .age(46)
          .sex(Person.Sex.FEMALE)
          .mass(kg(71))
          .cleared(true)
          .lowersHeartRate(false)
          .build();

  private final List<String> lines = new ArrayList<>();
  private final Session session =
      Session.open(WALK, ANN, LineLedger.begin(WALK, ANN, Optional.of("ann"), lines::add));

  private String text() {
    return String.join("\n", lines) + "\n";
  }

  private void begin(Session some) {
    some.record(
        at("0:00"),
        resting(heartRate(68)),
        resting(pressure(122, 78)),
        answer("unwell_today", false),
        answer("recent_event", false),
        answer("pregnant", false));
    some.follow(some.decide(at("0:00")));
  }

  @Test
  void theLinesAreTheRecord() {
    begin(session);
    assertThat(lines).hasSize(3);
    assertThat(text()).isEqualTo(TestRecord.of(session, Optional.of("ann")).text());
  }

  @Test
  void aSessionGoesOnFromTheLines() {
    begin(session);
    String last = lines.get(lines.size() - 1);
    Session again =
        TestRecord.parse("ann", text()).resume(LIBRARY, LineLedger.after(last, lines::add));
    session.fork().record(at("1:00"), heartRate(104));
    again.record(at("1:00"), heartRate(104));
    assertThat(lines).hasSize(4);
    assertThat(text()).isEqualTo(TestRecord.of(again, Optional.of("ann")).text());
    assertThat(TestRecord.parse("ann", text()).verify(LIBRARY)).isEmpty();
  }

  @Test
  void anEventWhoseLineIsNotKeptHasNotHappened() {
    List<String> kept = new ArrayList<>();
    boolean[] full = {false};
    Session some =
        Session.open(
            WALK,
            ANN,
            LineLedger.begin(
                WALK,
                ANN,
                Optional.empty(),
                line -> {
                  if (full[0]) {
                    throw new IllegalStateException("the table is full");
                  }
                  kept.add(line);
                }));
    full[0] = true;
    assertThatThrownBy(() -> begin(some)).hasMessage("the table is full");
    assertThat(some.events()).isEmpty();
    full[0] = false;
    begin(some);
    String text = String.join("\n", kept) + "\n";
    assertThat(text).isEqualTo(TestRecord.of(some, Optional.empty()).text());
  }

  @Test
  void whatIsNoLineOfARecordIsRefused() {
    for (String line : List.of("", "{}", "{\"sum\": \"ab\"}", lines.get(0) + "\n")) {
      assertThatThrownBy(() -> LineLedger.after(line, lines::add))
          .isInstanceOf(ValueRefused.class)
          .hasMessageContaining("ends with its sum");
    }
  }
}
