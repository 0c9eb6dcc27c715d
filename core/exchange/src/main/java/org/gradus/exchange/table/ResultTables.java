package org.gradus.exchange.table;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.capacity.Interval;
import org.gradus.report.StageRow;
import org.gradus.session.Event;
import org.gradus.session.Loading;
import org.gradus.session.Outcome;
import org.gradus.session.Reading;
import org.gradus.session.Session;
import org.gradus.session.StageResult;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/**
 * What came of a test as CSV for spreadsheets and statistics. Numbers and units have columns of
 * their own. An empty cell is not known; it is never zero.
 */
public final class ResultTables {

  private ResultTables() {}

  /**
   * The stages that were left, one row each: when they began and how long they lasted in seconds,
   * whether they were completed and used, then each component of the load, each signal as it stood
   * at the end, and the oxygen uptake that the load costs.
   */
  public static String stages(Outcome outcome, Capacity capacity) {
    requireNonNull(capacity, "capacity");
    List<StageRow> stages = StageRow.of(outcome, capacity);
    Set<String> loads = new LinkedHashSet<>();
    Set<String> signals = new LinkedHashSet<>();
    for (StageRow row : stages) {
      row.stage().loads().forEach(load -> loads.add(load.name()));
      row.readings().forEach(reading -> signals.add(reading.subject()));
    }
    List<List<String>> rows = new ArrayList<>();
    List<String> head =
        new ArrayList<>(
            List.of("stage", "start_s", "lasted_s", "warm_up", "pause", "completed", "used"));
    loads.forEach(name -> head.addAll(List.of("load_" + name, "load_" + name + "_unit")));
    signals.forEach(name -> head.addAll(List.of(name, name + "_unit")));
    head.addAll(List.of("uptake", "uptake_unit"));
    rows.add(head);
    stages.forEach(row -> rows.add(stage(row, loads, signals)));
    return Csv.write(rows);
  }

  private static List<String> stage(StageRow row, Set<String> loads, Set<String> signals) {
    StageResult stage = row.stage();
    List<String> cells =
        new ArrayList<>(
            List.of(
                Cells.text(stage.id()),
                seconds(stage.start()),
                seconds(stage.lasted()),
                Cells.truth(stage.warmUp()),
                Cells.truth(stage.pause()),
                Cells.truth(stage.completed()),
                Cells.truth(row.used())));
    for (String name : loads) {
      cells.addAll(
          quantity(
              stage.loads().stream()
                  .filter(load -> load.name().equals(name))
                  .map(Loading::value)
                  .findFirst()));
    }
    for (String name : signals) {
      cells.addAll(row.reading(name).map(ResultTables::value).orElse(List.of("", "")));
    }
    cells.addAll(quantity(row.uptake()));
    return cells;
  }

  /**
   * Every reading and answer that was told, one row each: the number of its event, when it was
   * taken and told in seconds since the start of the session, the stage, the posture before the
   * test, the name, the value and its unit, and whether it was amended or rejected later.
   */
  public static String readings(Session session) {
    List<List<String>> rows = new ArrayList<>();
    rows.add(
        List.of(
            "event", "taken_s", "told_s", "stage", "posture", "name", "value", "unit", "status"));
    List<Event> events = session.events();
    for (int i = 0; i < events.size(); i++) {
      if (events.get(i) instanceof Event.Read read) {
        for (Reading reading : read.readings()) {
          rows.add(reading(session, i + 1, read, reading));
        }
      }
    }
    return Csv.write(rows);
  }

  private static List<String> reading(
      Session session, int number, Event.Read read, Reading reading) {
    Reading bare = reading instanceof Reading.Baseline baseline ? baseline.reading() : reading;
    String posture = reading instanceof Reading.Baseline baseline ? baseline.posture().word() : "";
    List<String> cells =
        new ArrayList<>(
            List.of(
                Integer.toString(number),
                seconds(read.taken()),
                seconds(read.at()),
                stage(session.outcome(), read.taken()),
                posture,
                Cells.text(bare.subject())));
    cells.addAll(value(bare));
    cells.add(status(session.events(), number, reading));
    return cells;
  }

  // A reading at the very end of a stage is one of that stage.
  private static String stage(Outcome outcome, Duration taken) {
    return outcome.stages().stream()
        .filter(stage -> taken.compareTo(stage.start()) > 0)
        .filter(stage -> taken.compareTo(stage.start().plus(stage.lasted())) <= 0)
        .map(stage -> Cells.text(stage.id()))
        .findFirst()
        .orElse("");
  }

  private static String status(List<Event> events, int number, Reading reading) {
    String status = "";
    for (Event event : events) {
      if (event instanceof Event.Rejected rejected
          && rejected.event() == number
          && rejected.subject().equals(reading.subject())) {
        status = "rejected";
      } else if (event instanceof Event.Amended amended
          && amended.event() == number
          && amended.readings().stream()
              .anyMatch(better -> better.subject().equals(reading.subject()))) {
        status = "amended";
      }
    }
    return status;
  }

  /**
   * The results, one row for each estimate of the protocol: the capacity with its unit, the 95 %
   * interval where there is one, whether it is the headline, and why an estimate is missing.
   */
  public static String results(Capacity capacity) {
    List<List<String>> rows = new ArrayList<>();
    rows.add(
        List.of("estimate", "vo2max", "low_95", "high_95", "unit", "headline", "missing_because"));
    Optional<String> headline = capacity.headline().map(Estimate.Available::id);
    for (Estimate estimate : capacity.estimates()) {
      boolean first = headline.filter(estimate.id()::equals).isPresent();
      rows.add(
          estimate instanceof Estimate.Available available
              ? available(available, first)
              : List.of(
                  Cells.text(estimate.id()),
                  "",
                  "",
                  "",
                  "",
                  Cells.truth(false),
                  Cells.text(String.join("; ", estimate.reasons()))));
    }
    return Csv.write(rows);
  }

  private static List<String> available(Estimate.Available estimate, boolean headline) {
    Unit unit = estimate.vo2max().unit();
    Optional<Interval> interval = estimate.interval();
    return List.of(
        Cells.text(estimate.id()),
        Cells.number(estimate.vo2max().amount()),
        interval.map(both -> Cells.number(both.low().in(unit))).orElse(""),
        interval.map(both -> Cells.number(both.high().in(unit))).orElse(""),
        unit.symbol(),
        Cells.truth(headline),
        "");
  }

  private static List<String> value(Reading reading) {
    return reading instanceof Reading.Measured measured
        ? quantity(Optional.of(measured.value()))
        : List.of(Cells.text(reading.toString()), "");
  }

  private static List<String> quantity(Optional<Quantity> quantity) {
    return quantity
        .map(value -> List.of(Cells.number(value.amount()), value.unit().symbol()))
        .orElse(List.of("", ""));
  }

  private static String seconds(Duration time) {
    return Cells.number(time.toMillis() / 1000.0);
  }
}
