package org.gradus.examples.workbench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.examples.workbench.Bench.run;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.resting;
import static org.gradus.session.Times.at;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.bundled.Bundled;
import org.gradus.examples.workbench.Bench.Ran;
import org.gradus.history.TestRecord;
import org.gradus.protocol.Person;
import org.gradus.session.Event;
import org.gradus.session.Readings;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantities;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A record in which the test goes on after a stop, with check sums that are right. */
class ForgedTest {

  @TempDir private Path folder = Path.of("");

  private static TestRecord forged() {
    Person person =
        Person.builder()
            .age(46)
            .sex(Person.Sex.FEMALE)
            .mass(Quantities.kg(71))
            .cleared(true)
            .lowersHeartRate(false)
            .build();
    Session session = Session.open(Bundled.library().protocol("graded-walk-standard"), person);
    session.record(
        at("0:00"),
        Readings.answer("unwell_today", false),
        Readings.answer("recent_event", false),
        Readings.answer("pregnant", false),
        resting(heartRate(68)),
        resting(pressure(122, 78)));
    session.follow(session.decide(at("0:00")));
    session.follow(session.report(at("1:20"), "chest_pain"));
    TestRecord honest = TestRecord.of(session, Optional.empty());
    List<TestRecord.Entry> entries = new ArrayList<>(honest.entries());
    Event on = new Event.Followed(new Verdict.Advance("walk_2"), at("1:30"));
    entries.add(new TestRecord.Entry(5, on, "CONTINUE until 4:30", "", List.of(), false));
    return new TestRecord(honest.title(), entries);
  }

  @Test
  void isRefusedByTheNumberOfTheEventWhereverItIsUsed() throws Exception {
    Path record = folder.resolve("forged.jsonl");
    Files.writeString(record, forged().text());
    byte[] before = Files.readAllBytes(record);
    for (String[] command :
        List.of(
            new String[] {"play", record.toString()},
            new String[] {"play", record.toString(), "--json"},
            new String[] {"play", record.toString(), "--explain", "5"},
            new String[] {"report", record.toString()},
            new String[] {"report", record.toString(), "--json"},
            new String[] {"resume", record.toString()})) {
      Ran ran = run("", command);
      assertThat(ran.code()).as(String.join(" ", command)).isEqualTo(Workbench.REFUSED);
      assertThat(ran.text().replaceAll("\\s+", " "))
          .contains(
              "event 5 of the record",
              "to follow ADVANCE to walk_2",
              "recommended then is CONTINUE until 16:20")
          .doesNotContain("as it was made");
    }
    assertThat(Files.readAllBytes(record)).isEqualTo(before);
  }
}
