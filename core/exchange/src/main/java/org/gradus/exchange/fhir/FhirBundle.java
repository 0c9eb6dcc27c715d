package org.gradus.exchange.fhir;

import static org.gradus.exchange.fhir.BundleParts.map;
import static org.gradus.exchange.fhir.BundleParts.reference;
import static org.gradus.exchange.fhir.BundleParts.words;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.capacity.Result;
import org.gradus.history.Json;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
import org.gradus.protocol.Heading;
import org.gradus.protocol.Question;
import org.gradus.report.Report;
import org.gradus.session.Ending;
import org.gradus.session.Event;
import org.gradus.session.Ledger;
import org.gradus.session.Outcome;
import org.gradus.session.Phase;
import org.gradus.session.Reading;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.training.BandPlan;
import org.gradus.training.Training;

/**
 * A test as a Bundle of HL7 FHIR R4, type collection:
 *
 * <ul>
 *   <li>ServiceRequest and Procedure (completed, stopped with the reason, or not done);
 *   <li>QuestionnaireResponse: the answers before the test;
 *   <li>Observations: mass and height, readings at rest and in stages, the load of each stage, how
 *       long the exercise lasted, and each estimate and other result with its 95 % interval and the
 *       method estimated;
 *   <li>DiagnosticReport, with the report as HTML if the host gives it;
 *   <li>CarePlan, a draft, if the host gives a training plan;
 *   <li>Provenance with the protocol's id, version and digest.
 * </ul>
 *
 * <p>The same test with the same options always gives the same bundle. A reading that was put right
 * is {@code amended}, one that was taken back {@code entered-in-error}.
 */
public final class FhirBundle {

  private final Session session;
  private final FhirOptions options;
  private final Outcome outcome;
  private final Capacity capacity;
  private final Codes codes = Codes.read();
  private final String seed;
  private final List<Map<String, Object>> entries = new ArrayList<>();

  private FhirBundle(Session session, FhirOptions options) {
    this.session = session;
    this.options = options;
    this.outcome = session.outcome();
    this.capacity = Capacity.of(outcome);
    this.seed = TestRecord.of(session, Optional.empty()).sum() + " " + options.start();
  }

  /**
   * The bundle of a test as it stands, as JSON in one line.
   *
   * @param session the session; it is not changed
   * @param options what only the host knows
   */
  public static String of(Session session, FhirOptions options) {
    return Json.write(new FhirBundle(session, options).bundle());
  }

  /**
   * The bundle of a test that was recorded.
   *
   * @throws org.gradus.diagnostic.RecordRefused when the protocol means something else in the
   *     library, or an event cannot have happened
   */
  public static String of(TestRecord record, Library library, FhirOptions options) {
    return of(record.resume(library, Ledger.NONE), options);
  }

  private Map<String, Object> bundle() {
    Heading heading = outcome.protocol().heading();
    String request = add("request", request(heading));
    String procedure = add("procedure", procedure(request));
    List<Map<String, Object>> answers = answers();
    if (!answers.isEmpty()) {
      add("answers", questionnaire(answers));
    }
    List<Map<String, Object>> results = new ArrayList<>();
    for (Map<String, Object> observation :
        new Observations(session, capacity, options, codes, subject()).all()) {
      observation.put("partOf", List.of(reference(procedure)));
      results.add(reference(add("observation", observation)));
    }
    String report = add("report", report(request, results));
    options.plan().ifPresent(plan -> add("plan", plan(plan)));
    add("provenance", provenance(heading, List.of(reference(procedure), reference(report))));
    return map(
        "resourceType",
        "Bundle",
        "type",
        "collection",
        "timestamp",
        time(lastEvent()),
        "entry",
        entries);
  }

  // The same test gives the same names, and no other test does.
  private String add(String what, Map<String, Object> resource) {
    String name = seed + " " + what + " " + entries.size();
    String url = "urn:uuid:" + UUID.nameUUIDFromBytes(name.getBytes(StandardCharsets.UTF_8));
    entries.add(map("fullUrl", url, "resource", resource));
    return url;
  }

  private Map<String, Object> subject() {
    return options
        .patient()
        .map(BundleParts::reference)
        .orElse(map("display", "the person tested, who is not named here"));
  }

  private String time(Duration at) {
    return BundleParts.instant(options.start(), at);
  }

  private Duration lastEvent() {
    List<Event> events = session.events();
    Duration last = events.isEmpty() ? Duration.ZERO : events.get(events.size() - 1).at();
    return last.isNegative() ? Duration.ZERO : last;
  }

  private Map<String, Object> test() {
    return codes.concept(outcome.protocol().heading().title(), "exercise_test");
  }

  private Map<String, Object> request(Heading heading) {
    return map(
        "resourceType", "ServiceRequest",
        "status", outcome.phase() == Phase.ENDED ? "completed" : "active",
        "intent", "order",
        "code", test(),
        "subject", subject(),
        "authoredOn", time(Duration.ZERO),
        "note", List.of(words("Protocol " + heading.id() + " " + heading.version() + ".")));
  }

  private Map<String, Object> procedure(String request) {
    Map<String, Object> procedure =
        map(
            "resourceType", "Procedure",
            "basedOn", List.of(reference(request)),
            "status", status());
    reason().ifPresent(reason -> procedure.put("statusReason", words(reason)));
    procedure.put(
        "code",
        codes.concept(
            outcome.protocol().heading().title(), "exercise_test", "exercise_test_procedure"));
    procedure.put("subject", subject());
    procedure.put("performedPeriod", map("start", time(Duration.ZERO), "end", time(lastEvent())));
    return procedure;
  }

  private String status() {
    boolean begun = !outcome.stages().isEmpty() || outcome.phase() == Phase.STAGE;
    Optional<Ending> ending = outcome.ending();
    if (outcome.stopped() || (begun && ending.filter(Ending.ABANDONED::equals).isPresent())) {
      return "stopped";
    } else if (ending.isPresent()) {
      return begun ? "completed" : "not-done";
    }
    return begun ? "in-progress" : "preparation";
  }

  // The rule behind the last verdict that ended something, and what the tester said to it.
  private Optional<String> reason() {
    if (!List.of("stopped", "not-done").contains(status())) {
      return Optional.empty();
    }
    List<String> reasons = new ArrayList<>();
    Session.retell(
        session.protocol(),
        outcome.person(),
        session.events(),
        (number, event, answer) -> {
          if (event.kind() == Event.Kind.FOLLOWED
              || event.kind() == Event.Kind.OVERRIDDEN
              || event.kind() == Event.Kind.ABANDONED) {
            ending(event, number).ifPresent(reasons::add);
          }
        });
    return reasons.isEmpty() ? Optional.of("not said") : Optional.of(String.join("; ", reasons));
  }

  // What was recommended just before an event that ended the exercise or the test.
  private Optional<String> ending(Event event, int number) {
    if (event instanceof Event.Followed followed
        && (followed.verdict().kind() == Verdict.Kind.STOP
            || followed.verdict().kind() == Verdict.Kind.DEFER)) {
      Session before =
          Session.resume(
              session.protocol(),
              outcome.person(),
              session.events().subList(0, number - 1),
              Ledger.NONE);
      return Optional.of(before.decide(event.at()).toString());
    } else if (event instanceof Event.Overridden overridden
        && (overridden.verdict().kind() == Verdict.Kind.STOP
            || overridden.verdict().kind() == Verdict.Kind.DEFER)) {
      return Optional.of(overridden.verdict().word() + ": " + event.reason());
    }
    return event instanceof Event.Abandoned ? Optional.of(event.reason()) : Optional.empty();
  }

  private List<Map<String, Object>> answers() {
    List<Map<String, Object>> items = new ArrayList<>();
    for (Event event : session.events()) {
      if (event instanceof Event.Read read) {
        for (Reading reading : read.readings()) {
          Question question = outcome.protocol().instruments().questions().get(reading.subject());
          if (question != null) {
            items.removeIf(item -> reading.subject().equals(item.get("linkId")));
            items.add(
                map(
                    "linkId", question.name(),
                    "text", question.prompt(),
                    "answer", List.of(answer(reading))));
          }
        }
      }
    }
    return items;
  }

  private Map<String, Object> answer(Reading reading) {
    if (reading instanceof Reading.Answered answered) {
      return map("valueBoolean", answered.yes());
    }
    return reading instanceof Reading.Measured measured
        ? map("valueQuantity", BundleParts.quantity(measured.value(), codes))
        : map("valueString", reading.toString());
  }

  private Map<String, Object> questionnaire(List<Map<String, Object>> answers) {
    return map(
        "resourceType",
        "QuestionnaireResponse",
        "status",
        "completed",
        "subject",
        subject(),
        "authored",
        time(Duration.ZERO),
        "item",
        answers);
  }

  private Map<String, Object> report(String request, List<Map<String, Object>> results) {
    Map<String, Object> report =
        map(
            "resourceType", "DiagnosticReport",
            "basedOn", List.of(reference(request)),
            "status", outcome.phase() == Phase.ENDED ? "final" : "preliminary",
            "code", test(),
            "subject", subject(),
            "effectivePeriod", map("start", time(Duration.ZERO), "end", time(lastEvent())),
            "issued", time(lastEvent()));
    if (!results.isEmpty()) {
      report.put("result", results);
    }
    report.put("conclusion", conclusion());
    options
        .html()
        .ifPresent(
            html ->
                report.put(
                    "presentedForm",
                    List.of(
                        map(
                            "contentType", "text/html",
                            "data",
                                Base64.getEncoder()
                                    .encodeToString(html.getBytes(StandardCharsets.UTF_8)),
                            "title", "Report of the exercise test"))));
    return report;
  }

  private String conclusion() {
    List<String> sentences = new ArrayList<>();
    if (!capacity.estimates().isEmpty()) {
      sentences.add(
          capacity
              .headline()
              .map(
                  best ->
                      "Estimated aerobic capacity "
                          + best.vo2max().rounded(1)
                          + best.interval().map(both -> ", 95 % interval " + both).orElse("")
                          + ".")
              .orElse("No aerobic capacity could be estimated."));
    }
    if (capacity.headline().isEmpty()) {
      capacity.estimates().stream()
          .map(Estimate::reasons)
          .flatMap(List::stream)
          .distinct()
          .forEach(reason -> sentences.add(reason + "."));
    }
    for (Result result : capacity.results()) {
      sentences.add(
          result.title()
              + (result.isAvailable() ? ": " : " could not be worked out: ")
              + result.words()
              + ".");
    }
    sentences.add(Report.CAUTION);
    return String.join(" ", sentences);
  }

  private Map<String, Object> plan(Training plan) {
    Map<String, Object> care =
        map(
            "resourceType",
            "CarePlan",
            "status",
            plan.withheld().isPresent() ? "on-hold" : "draft",
            "intent",
            "proposal",
            "title",
            plan.bands().title(),
            "subject",
            subject(),
            "created",
            time(lastEvent()));
    List<Map<String, Object>> bands =
        plan.plans().stream()
            .map(
                band ->
                    map("detail", map("status", "not-started", "description", description(band))))
            .toList();
    if (!bands.isEmpty()) {
      care.put("activity", bands);
    }
    List<Map<String, Object>> notes = new ArrayList<>();
    plan.withheld().ifPresent(reason -> notes.add(words(reason)));
    plan.remarks().forEach(remark -> notes.add(words(remark)));
    notes.add(words("A proposal to a trained person, who decides; it is no prescription."));
    care.put("note", notes);
    return care;
  }

  private static String description(BandPlan band) {
    List<String> parts = new ArrayList<>();
    band.heartRate().ifPresent(range -> parts.add("heart rate " + range.rounded(0)));
    band.uptake().ifPresent(range -> parts.add("oxygen uptake " + range.rounded(1)));
    band.mets().ifPresent(range -> parts.add(range.rounded(1).toString()));
    band.rating().ifPresent(range -> parts.add("rating " + range.rounded(0)));
    band.loads().forEach(load -> parts.add(load.exercise().title() + ": " + load.words()));
    return band.id() + (parts.isEmpty() ? "" : ": " + String.join("; ", parts));
  }

  private Map<String, Object> provenance(Heading heading, List<Map<String, Object>> targets) {
    return map(
        "resourceType", "Provenance",
        "target", targets,
        "recorded", time(lastEvent()),
        "agent",
            List.of(
                map(
                    "who",
                    map("display", options.performer().orElse("the tester, who is not named")))),
        "entity",
            List.of(
                map(
                    "role",
                    "source",
                    "what",
                    map(
                        "identifier",
                        map(
                            "value",
                            heading.id() + " " + heading.version() + " " + heading.digest()),
                        "display",
                        "Protocol "
                            + heading.id()
                            + ", version "
                            + heading.version()
                            + ", digest "
                            + heading.digest()))));
  }
}
