package org.gradus.examples.workbench;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Clearance;
import org.gradus.capacity.Estimate;
import org.gradus.history.TestRecord;
import org.gradus.knowledge.IntensityBands;
import org.gradus.library.Library;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Heading;
import org.gradus.protocol.Protocol;
import org.gradus.report.Report;
import org.gradus.report.StageRow;
import org.gradus.session.Event;
import org.gradus.session.Ledger;
import org.gradus.session.Loading;
import org.gradus.session.Outcome;
import org.gradus.session.Reading;
import org.gradus.session.Session;
import org.gradus.training.Training;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;

/**
 * The report of a recorded test as names and values, for programs. Times are in seconds since the
 * start of the session, amounts stand beside their units and are not rounded, and what there is not
 * is missing.
 */
final class ReportMap {

  private final TestRecord record;
  private final Outcome outcome;
  private final Capacity capacity;
  private final Library library;
  private final Optional<IntensityBands> bands;

  /**
   * A report.
   *
   * @param bands the bands of intensity to train by, if a prescription is wanted
   * @param cleared whether the person was cleared for exercise after the test was over
   */
  ReportMap(TestRecord record, Library library, Optional<IntensityBands> bands, boolean cleared) {
    Session session = record.resume(library, Ledger.NONE);
    this.record = record;
    this.outcome = session.outcome();
    Capacity told = Capacity.of(outcome);
    this.capacity = cleared ? told.clearedAfterStop() : told;
    this.library = library;
    this.bands = bands;
  }

  Map<String, Object> map() {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("protocol", protocol());
    record.title().identity().ifPresent(words -> map.put("identity", words));
    map.put("person", person());
    map.put("test", test());
    map.put("stages", Named.list(StageRow.of(outcome, capacity), ReportMap::stage));
    DecisionMap decisions = new DecisionMap(outcome, record);
    map.put("decisions", decisions.decisions());
    map.put("hindsight", decisions.hindsight());
    capacity.headline().map(Estimate.Available::id).ifPresent(id -> map.put("result", id));
    map.put("estimates", Named.list(capacity.estimates(), ResultMap::estimate));
    map.put("results", Named.list(capacity.results(), ResultMap::result));
    map.put("findings", Named.list(capacity.findings(), ResultMap::finding));
    map.put("standings", Named.list(capacity.standings(library.norms()), ResultMap::standing));
    bands.ifPresent(by -> map.put("prescription", PlanMap.plan(Training.plan(capacity, by))));
    map.put("cautions", cautions());
    return map;
  }

  private Map<String, Object> protocol() {
    Protocol protocol = outcome.protocol();
    Heading heading = protocol.heading();
    Map<String, Object> settings = new LinkedHashMap<>();
    protocol.settings().forEach((name, setting) -> settings.put(name, setting.value().toString()));
    return Named.values(
        "id",
        heading.id(),
        "version",
        heading.version(),
        "title",
        heading.title(),
        "ergometer",
        heading.ergometer(),
        "purpose",
        heading.purpose(),
        "fingerprint",
        heading.digest(),
        "settings",
        settings);
  }

  private Map<String, Object> person() {
    Map<String, Object> known = new LinkedHashMap<>();
    for (Attribute attribute : Attribute.values()) {
      outcome
          .person()
          .value(attribute)
          .ifPresent(value -> known.put(attribute.word(), value(attribute, value)));
    }
    return known;
  }

  private static Object value(Attribute attribute, Quantity value) {
    if (attribute.type() instanceof Type.Choice choice) {
      return choice.options().get((int) value.amount());
    }
    boolean measured =
        attribute.type() instanceof Type.Measure measure && measure.kind() != Kind.NUMBER;
    return measured ? Named.quantity(value) : (Object) (value.amount() != 0);
  }

  private Map<String, Object> test() {
    List<TestRecord.Entry> entries = record.entries();
    Map<String, Object> test = new LinkedHashMap<>();
    test.put("events", entries.size());
    long last = entries.isEmpty() ? 0 : entries.get(entries.size() - 1).event().at().toSeconds();
    test.put("lastEvent", last);
    test.put("phase", Named.word(outcome.phase()));
    outcome.ending().ifPresent(how -> test.put("ending", Named.word(how)));
    test.put("stopped", outcome.stopped());
    if (capacity.clearance() != Clearance.NOT_NEEDED) {
      test.put("clearedAfterStop", capacity.clearance() == Clearance.GIVEN);
    }
    test.put("signs", signs(entries));
    return test;
  }

  private static List<Map<String, Object>> signs(List<TestRecord.Entry> entries) {
    List<Map<String, Object>> signs = new ArrayList<>();
    for (TestRecord.Entry entry : entries) {
      if (entry.event() instanceof Event.Reported reported) {
        Map<String, Object> sign =
            Named.values(
                "event", entry.number(), "at", reported.at().toSeconds(), "sign", reported.sign());
        reported.grade().ifPresent(grade -> sign.put("grade", grade));
        signs.add(sign);
      }
    }
    return signs;
  }

  private static Map<String, Object> stage(StageRow row) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("id", row.stage().id());
    map.put("start", row.stage().start().toSeconds());
    map.put("lasted", row.stage().lasted().toSeconds());
    map.put("warmUp", row.stage().warmUp());
    map.put("pause", row.stage().pause());
    map.put("completed", row.stage().completed());
    Map<String, Object> loads = new LinkedHashMap<>();
    for (Loading load : row.stage().loads()) {
      loads.put(load.name(), Named.quantity(load.value()));
    }
    map.put("loads", loads);
    Map<String, Object> readings = new LinkedHashMap<>();
    for (Reading reading : row.readings()) {
      readings.put(
          reading.subject(),
          reading instanceof Reading.Measured measured
              ? Named.quantity(measured.value())
              : reading.toString());
    }
    map.put("readings", readings);
    row.uptake().ifPresent(uptake -> map.put("uptake", Named.quantity(uptake)));
    map.put("used", row.used());
    return map;
  }

  private List<String> cautions() {
    List<String> cautions = new ArrayList<>(List.of(Report.CAUTION));
    cautions.addAll(outcome.protocol().heading().cautions());
    return cautions;
  }
}
