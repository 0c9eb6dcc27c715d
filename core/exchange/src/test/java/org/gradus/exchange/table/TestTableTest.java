package org.gradus.exchange.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.tuple;
import static org.gradus.session.Readings.answer;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.pulse;
import static org.gradus.session.Readings.resting;
import static org.gradus.session.Times.at;
import static org.gradus.session.Times.seconds;
import static org.gradus.unit.Quantities.hours;
import static org.gradus.unit.Quantities.kg;
import static org.gradus.unit.Quantities.mph;
import static org.gradus.unit.Quantities.percent;

import java.util.List;
import java.util.Optional;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import org.gradus.bundled.Bundled;
import org.gradus.capacity.Capacity;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.session.Loading;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.testkit.Any;
import org.gradus.testkit.TestScript;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/** A test goes out as a table and comes in again as it was. */
class TestTableTest {

  private static final Library LIBRARY = Bundled.library();

  /** A walk with all that a tester may tell and do. */
  static Session walk() {
    Person person =
        Person.builder()
            .age(46)
            .sex(Person.Sex.FEMALE)
            .mass(kg(71))
            .cleared(true)
            .lowersHeartRate(false)
            .build();
    Session session =
        Session.open(LIBRARY.protocol("graded-walk-standard").with("fasting", hours(2)), person);
    session.record(
        at("0:00"),
        resting(heartRate(68)),
        resting(pressure(122, 78)),
        answer("unwell_today", false),
        answer("recent_event", false),
        answer("pregnant", false));
    session.follow(session.decide(at("0:00")));
    session.loadSet(at("0:00"), new Loading("speed", Quantity.of(2.7, Unit.KMH)));
    session.record(at("2:00"), pulse(26, seconds(15)));
    int slip = session.events().size();
    session.amend(at("2:10"), slip, heartRate(105.5), "=misheard, \"105\"");
    session.follow(session.record(at("3:00"), pulse(28, seconds(15))));
    session.follow(session.record(at("4:00"), pulse(29, seconds(15))));
    session.record(at("6:00"), pulse(31, seconds(15)));
    session.override(
        at("7:00"),
        new Verdict.Advance(
            "walk_3", List.of(new Loading("speed", mph(3)), new Loading("grade", percent(12)))),
        "knee");
    session.follow(session.report(at("8:10"), "chest_pain"));
    session.recordTaken(at("9:10"), at("9:05"), pulse(27, seconds(15)));
    return session;
  }

  private static String record(Session session) {
    return TestRecord.of(session, Optional.empty()).text();
  }

  @Test
  void anExportedTestImportsToTheSameDecisionsAndResults() {
    Session session = walk();
    Session again = TestTable.read(TestTable.write(session), LIBRARY);
    assertThat(record(again)).isEqualTo(record(session));
    Capacity capacity = Capacity.of(session.outcome());
    assertThat(capacity.headline()).isPresent();
    assertThat(ResultTables.results(Capacity.of(again.outcome())))
        .isEqualTo(ResultTables.results(capacity));
  }

  @Provide
  Arbitrary<TestScript> tests() {
    return Arbitraries.of(LIBRARY.protocols()).flatMap(id -> Any.tests(LIBRARY.protocol(id)));
  }

  // Random tests by every bundled protocol, with everything that the kit for testers does.
  @Property(tries = 150)
  void everyTestImportsAsItWas(@ForAll("tests") TestScript script) {
    Session session = script.play();
    assertThat(record(TestTable.read(TestTable.write(session), LIBRARY)))
        .isEqualTo(record(session));
  }

  // As somebody writes it who has it on paper: few columns, no numbers, no word of what was
  // recommended.
  @Test
  void aTestOnPaperIsImported() {
    String paper =
        """
        action,at,name,value,unit,posture,reason
        protocol,,graded-walk-standard
        person,,age,46
        person,,sex,female
        person,,mass,71,kg
        person,,cleared,yes
        person,,lowers_heart_rate,no
        read,0:00,heart_rate,68,bpm,resting
        read,0:00,systolic,122,mmHg,resting
        read,0:00,diastolic,78,mmHg,resting
        read,0:00,unwell_today,no
        read,0:00,recent_event,no
        read,0:00,pregnant,no
        ready,0:00,walk_1
        read,2:00,heart_rate,112,bpm
        read,3:00,heart_rate,114,bpm
        advance,3:00,walk_2
        read,5:00,heart_rate,128,bpm
        read,6:00,heart_rate,130,bpm
        finish,6:00,,,,,enough for today
        """;
    Session session = TestTable.read(paper, LIBRARY);
    assertThat(session.outcome().stages()).hasSize(2);
    assertThat(Capacity.of(session.outcome()).headline()).isPresent();
    assertThat(session.events()).as("one event of six readings, then seven").hasSize(8);
  }

  @Test
  void everyProblemIsToldByLineAndColumn() {
    String paper =
        """
        action,at,name,value,unit,posture,reason,colour
        protocol,,graded-walk-standard
        person,,age,46.5
        person,,sex,f
        person,,mass,71,kg
        person,,lowers_heart_rate,no
        read,0:00,heart_rate,68,bpms,resting
        read,zero,systolic,122,mmHg
        jump,0:00
        ready,0:00,walk_9
        read,2:00,heart_rate,700,bpm
        withdraw,2:00
        """;
    assertThatExceptionOfType(TableRefused.class)
        .isThrownBy(
            () -> TestTable.read(paper.replace("46.5", "46").replace(",f\n", ",female\n"), LIBRARY))
        .satisfies(
            refused ->
                assertThat(refused.problems())
                    .extracting(TableProblem::line, TableProblem::column)
                    .containsExactly(
                        tuple(1, "colour"),
                        tuple(9, "action"),
                        tuple(7, "unit"),
                        tuple(8, "at"),
                        tuple(10, "reason"),
                        tuple(11, "value"),
                        tuple(12, "name")));
    assertThatExceptionOfType(TableRefused.class)
        .isThrownBy(() -> TestTable.read(paper, LIBRARY))
        .withMessageContaining("line 3, column value: an age is in whole years, not 46.5")
        .withMessageContaining("line 4, column value: is f; write male or female");
  }

  @Test
  void otherBrokenTablesAreRefused() {
    for (String broken :
        List.of(
            "",
            "action",
            "at,name\n0:00,x",
            "action,at\nprotocol,\n\"open",
            "action;at\nprotocol;",
            "action,name\nprotocol,no-such-protocol",
            "action,name,value\nprotocol,graded-walk-standard,0.0.1",
            "action,action\nprotocol,x")) {
      assertThatExceptionOfType(TableRefused.class)
          .as(broken)
          .isThrownBy(() -> TestTable.read(broken, LIBRARY));
    }
  }

  // Whatever is changed in a table, it is read or refused with the type that says so.
  @Property(tries = 300)
  void noTableThrowsAnythingElse(
      @ForAll @IntRange(max = 5000) int place,
      @ForAll @IntRange(max = 12) int length,
      @ForAll("pieces") String piece) {
    String table = Tables.WALK;
    int from = place % table.length();
    String changed =
        table.substring(0, from) + piece + table.substring(Math.min(table.length(), from + length));
    try {
      assertThat(TestTable.read(changed, LIBRARY)).isNotNull();
    } catch (TableRefused refused) {
      assertThat(refused.problems()).isNotEmpty();
    }
  }

  /** Written once. */
  private static final class Tables {
    private static final String WALK = TestTable.write(walk());
  }

  @Provide
  Arbitrary<String> pieces() {
    return Arbitraries.oneOf(
        Arbitraries.of("", ",", "\r\n", "\"", "-", "1e300", "24:00:01", "yes", "STOP", "'"),
        Arbitraries.strings().ofMaxLength(8));
  }

  // A spreadsheet would take the reason for a formula.
  @Test
  void noTextIsAFormula() {
    assertThat(TestTable.write(walk())).contains(",\"'=misheard, \"\"105\"\"\"");
  }

  @Test
  void stagesReadingsAndResultsAreTables() {
    Session session = walk();
    Capacity capacity = Capacity.of(session.outcome());
    assertThat(ResultTables.stages(session.outcome(), capacity).lines())
        .startsWith(
            "stage,start_s,lasted_s,warm_up,pause,completed,used,load_speed,load_speed_unit,"
                + "load_grade,load_grade_unit,heart_rate,heart_rate_unit,uptake,uptake_unit")
        .hasSize(4)
        .element(1)
        .asString()
        .startsWith("walk_1,0,240,no,no,yes,yes,2.7,km/h,10,%,116,bpm,");
    assertThat(ResultTables.readings(session).lines())
        .contains(
            "1,0,0,,resting,heart_rate,68,bpm,",
            "4,120,120,walk_1,,heart_rate,104,bpm,amended",
            "1,0,0,,,pregnant,no,,");
    assertThat(ResultTables.results(capacity).lines())
        .hasSize(1 + capacity.estimates().size())
        .element(1)
        .asString()
        .contains(",mL/kg/min,yes,");
  }
}
