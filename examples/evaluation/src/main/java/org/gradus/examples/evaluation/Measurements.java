package org.gradus.examples.evaluation;

import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.measured;
import static org.gradus.unit.Quantities.bpm;
import static org.gradus.unit.Quantities.kg;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.gradus.bundled.Bundled;
import org.gradus.capacity.Capacity;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.session.Decision;
import org.gradus.session.Loading;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** Open measurements, put through a session as if they were told now. */
final class Measurements {

  private static final Library LIBRARY = library();

  private Measurements() {}

  /**
   * A test of a person.
   *
   * @param name who and when
   * @param measured the measured capacity in mL/kg/min
   * @param estimated what is worked out from the stages
   */
  record Test(String name, double measured, Capacity estimated) {}

  /** The maximal heart rate that estimates are made with. */
  enum Maximum {
    /** Predicted as 220 - age. */
    PREDICTED,
    /** The one that was measured. */
    MEASURED
  }

  /** All tests of a study in which everything was measured that is needed. */
  static List<Test> of(Study study, Maximum maximum) {
    Protocol protocol = LIBRARY.protocol(study.id());
    Map<String, List<Map<String, String>>> stages = new HashMap<>();
    for (Map<String, String> row : rows(study, study.stages().orElse("tests.csv"))) {
      stages.computeIfAbsent(name(row), key -> new ArrayList<>()).add(row);
    }
    List<Test> tests = new ArrayList<>();
    for (Map<String, String> row : rows(study, "tests.csv")) {
      boolean known =
          isGiven(row, "vo2max_ml_min")
              && (maximum == Maximum.PREDICTED || isGiven(row, "hrmax_bpm"));
      if (known && !study.faulty().contains(name(row))) {
        Person person = person(study, maximum, row);
        double mass = number(row, "mass_kg");
        Session session = taken(protocol, person, mass, stages.getOrDefault(name(row), List.of()));
        double measured = number(row, "vo2max_ml_min") / mass;
        tests.add(new Test(name(row), measured, Capacity.of(session.outcome())));
      }
    }
    return tests;
  }

  private static Person person(Study study, Maximum maximum, Map<String, String> row) {
    Person.Builder person =
        Person.builder().mass(kg(number(row, "mass_kg"))).lowersHeartRate(false);
    if (study.withAge()) {
      person.age((int) number(row, "age_y"));
    }
    if (maximum == Maximum.MEASURED) {
      person.measuredMaxHeartRate(bpm(number(row, "hrmax_bpm")));
    }
    return person.build();
  }

  private static Session taken(
      Protocol protocol, Person person, double mass, List<Map<String, String>> stages) {
    Session session = Session.open(protocol, person);
    Decision ready = session.decide(Duration.ZERO);
    session.follow(ready);
    Duration start = Duration.ZERO;
    for (int i = 0; i < stages.size(); i++) {
      Map<String, String> stage = stages.get(i);
      if (stage.containsKey("power_w")) {
        Quantity power = Quantity.of(number(stage, "power_w"), Unit.WATT);
        session.loadSet(start.plusSeconds(1), new Loading("power", power));
      }
      Duration end = start.plusMinutes(5);
      Decision now = read(session, end, stage, mass);
      boolean last = i == stages.size() - 1;
      if (last && !(now.verdict() instanceof Verdict.Finish)) {
        session.follow(now, now.offers().get(0));
      } else {
        session.follow(now);
      }
      start = end;
    }
    return session;
  }

  private static Decision read(
      Session session, Duration at, Map<String, String> stage, double mass) {
    Decision now = session.decide(at);
    if (isGiven(stage, rate(stage))) {
      now = session.record(at, heartRate(number(stage, rate(stage))));
    }
    if (isGiven(stage, uptake(stage))) {
      double perKilogram = number(stage, uptake(stage)) / mass;
      now =
          session.record(
              at, measured("measured_uptake", Quantity.of(perKilogram, Unit.ML_PER_KG_PER_MINUTE)));
    }
    return now;
  }

  private static String rate(Map<String, String> stage) {
    return stage.containsKey("hr_bpm") ? "hr_bpm" : "hr_submax_bpm";
  }

  private static String uptake(Map<String, String> stage) {
    return stage.containsKey("vo2_ml_min") ? "vo2_ml_min" : "vo2_submax_ml_min";
  }

  private static Library library() {
    List<SourceFile> files = new ArrayList<>(Bundled.files());
    for (Study study : Study.ALL) {
      String name = study.id() + ".yaml";
      try (InputStream stream = stream(name)) {
        files.add(Library.file(name, stream));
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
    return Library.of(files);
  }

  private static InputStream stream(String name) {
    return Objects.requireNonNull(Measurements.class.getResourceAsStream(name), name);
  }

  private static String name(Map<String, String> row) {
    return text(row, "subject") + " " + text(row, row.containsKey("time") ? "time" : "timepoint");
  }

  private static String text(Map<String, String> row, String column) {
    return Objects.requireNonNull(row.get(column), column);
  }

  private static boolean isGiven(Map<String, String> row, String column) {
    return !text(row, column).isEmpty();
  }

  private static double number(Map<String, String> row, String column) {
    return Double.parseDouble(text(row, column));
  }

  private static List<Map<String, String>> rows(Study study, String file) {
    String name = study.id() + "/" + file;
    try (BufferedReader reader =
        new BufferedReader(new InputStreamReader(stream(name), StandardCharsets.UTF_8))) {
      String[] columns = Objects.requireNonNull(reader.readLine()).split(",", -1);
      List<Map<String, String>> rows = new ArrayList<>();
      for (String line = reader.readLine(); line != null; line = reader.readLine()) {
        String[] cells = line.split(",", -1);
        Map<String, String> row = new HashMap<>();
        for (int i = 0; i < columns.length; i++) {
          row.put(columns[i], cells[i]);
        }
        rows.add(row);
      }
      return rows;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
