package org.gradus.bundled;

import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.measured;

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
import java.util.Set;
import org.gradus.capacity.Capacity;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.session.Decision;
import org.gradus.session.Loading;
import org.gradus.session.Session;
import org.gradus.unit.Quantities;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/**
 * The open measurements of {@code cycling-measurements/SOURCE.md}: steady stages of trained
 * cyclists, put through a session as if they were told now, and the capacity that was measured in
 * them.
 */
final class Riders {

  private static final String FOLDER = "cycling-measurements/";

  /** Left out by their source: an uptake is in error. */
  private static final Set<String> FAULTY = Set.of("3 pre", "14 meso2");

  private static final Protocol CYCLING = protocol();

  private Riders() {}

  /**
   * A test of a rider.
   *
   * @param name who and when
   * @param measured the measured capacity in mL/kg/min
   * @param estimated what is worked out from the steady stages
   */
  record Rider(String name, double measured, Capacity estimated) {}

  /** All tests without a known fault in which a capacity was measured. */
  static List<Rider> all() {
    Map<String, List<Map<String, String>>> stages = new HashMap<>();
    for (Map<String, String> row : rows("stages.csv")) {
      stages.computeIfAbsent(name(row), k -> new ArrayList<>()).add(row);
    }
    List<Rider> riders = new ArrayList<>();
    for (Map<String, String> row : rows("tests.csv")) {
      String vo2max = text(row, "vo2max_ml_min");
      if (!vo2max.isEmpty() && !FAULTY.contains(name(row))) {
        double mass = number(row, "mass_kg");
        Capacity capacity = ridden(row, stages.getOrDefault(name(row), List.of()));
        riders.add(new Rider(name(row), Double.parseDouble(vo2max) / mass, capacity));
      }
    }
    return riders;
  }

  private static Capacity ridden(Map<String, String> row, List<Map<String, String>> stages) {
    Person person =
        Person.builder()
            .age((int) number(row, "age_y"))
            .mass(Quantities.kg(number(row, "mass_kg")))
            .lowersHeartRate(false)
            .build();
    Session session = Session.open(CYCLING, person);
    session.follow(session.decide(Duration.ZERO));
    Duration start = Duration.ZERO;
    for (int i = 0; i < stages.size(); i++) {
      Map<String, String> stage = stages.get(i);
      Quantity power = Quantity.of(number(stage, "power_w"), Unit.WATT);
      session.loadSet(start.plusSeconds(1), new Loading("power", power));
      Duration end = start.plusMinutes(5);
      Decision now = session.record(end, heartRate(number(stage, "hr_bpm")));
      if (!text(stage, "vo2_ml_min").isEmpty()) {
        Quantity uptake = Quantity.of(number(stage, "vo2_ml_min"), Unit.ML_PER_MINUTE);
        now = session.record(end, measured("measured_uptake", uptake));
      }
      if (i == stages.size() - 1) {
        session.follow(now, now.offers().get(0));
      } else {
        session.follow(now);
      }
      start = end;
    }
    return Capacity.of(session.outcome());
  }

  private static Protocol protocol() {
    List<SourceFile> files = new ArrayList<>(Bundled.files());
    for (String name : List.of("steady-cycling.yaml")) {
      try (InputStream stream = stream(name)) {
        files.add(Library.file(name, stream));
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
    return Library.of(files).protocol("steady-cycling");
  }

  private static InputStream stream(String name) {
    return Objects.requireNonNull(Riders.class.getResourceAsStream(FOLDER + name), name);
  }

  private static String name(Map<String, String> row) {
    return text(row, "subject") + " " + text(row, "timepoint");
  }

  private static String text(Map<String, String> row, String column) {
    return Objects.requireNonNull(row.get(column), column);
  }

  private static double number(Map<String, String> row, String column) {
    return Double.parseDouble(text(row, column));
  }

  private static List<Map<String, String>> rows(String name) {
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
