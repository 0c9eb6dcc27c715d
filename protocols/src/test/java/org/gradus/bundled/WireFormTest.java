package org.gradus.bundled;

import static java.util.Objects.requireNonNull;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Times.at;

import com.networknt.schema.Error;
import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.lifecycle.AfterContainer;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Standing;
import org.gradus.cases.Case;
import org.gradus.cases.Cases;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.GradusException;
import org.gradus.diagnostic.JsonRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.history.Json;
import org.gradus.knowledge.IntensityBands;
import org.gradus.knowledge.NormTable;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Ledger;
import org.gradus.session.Loading;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.testkit.Step;
import org.gradus.training.Training;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.gradus.words.FileText;
import org.gradus.words.Joined;
import org.gradus.words.Message;
import org.junit.jupiter.api.Test;

/** What a host stores or sends is read back as it was written, and is as its schema says. */
class WireFormTest {

  private static final Map<String, Schema> SCHEMAS = new HashMap<>();
  private static final Set<Verdict.Kind> VERDICTS = EnumSet.noneOf(Verdict.Kind.class);
  private static final Set<Event.Kind> EVENTS = EnumSet.noneOf(Event.Kind.class);

  static {
    Json.schemas()
        .forEach(
            (name, text) ->
                SCHEMAS.put(
                    name,
                    SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                        .getSchema(text, InputFormat.JSON)));
  }

  private static void isAsTheSchemaSays(String name, String json) {
    List<Error> errors = requireNonNull(SCHEMAS.get(name)).validate(json, InputFormat.JSON);
    assertThat(errors).as(json).isEmpty();
  }

  @Property(tries = 60, seed = "20261203")
  void decisionsAndEventsAreReadAsTheyWereWritten(@ForAll Random random) {
    Play.of(
        random,
        40,
        new Play.Watcher() {
          @Override
          public void done(Session session, Step step, Decision decision) {
            comesBack(decision);
            List<Event> events = session.events();
            if (!events.isEmpty()) {
              comesBack(events.get(events.size() - 1));
            }
          }
        });
  }

  @AfterContainer
  static void everyEventAndNearlyEveryVerdictWasSeen() {
    assertThat(EVENTS).contains(Event.Kind.READ, Event.Kind.REPORTED, Event.Kind.FOLLOWED);
    assertThat(VERDICTS)
        .contains(
            Verdict.Kind.READY,
            Verdict.Kind.CONTINUE,
            Verdict.Kind.MEASURE,
            Verdict.Kind.STOP,
            Verdict.Kind.OVER);
  }

  private static void comesBack(Decision decision) {
    VERDICTS.add(decision.kind());
    String json = Json.of(decision);
    Decision back = Json.toDecision(json);
    assertThat(back).isEqualTo(decision);
    assertThat(back.changesAt()).isEqualTo(decision.changesAt());
    assertThat(Json.of(back)).isEqualTo(json);
    assertThat(Json.toAgenda(Json.of(decision.agenda()))).isEqualTo(decision.agenda());
    isAsTheSchemaSays("decision", json);
    isAsTheSchemaSays("agenda", Json.of(decision.agenda()));
  }

  private static void comesBack(Event event) {
    EVENTS.add(event.kind());
    String json = Json.of(event);
    assertThat(Json.toEvent(json)).isEqualTo(event);
    isAsTheSchemaSays("event", json);
  }

  @Test
  void everyKindOfEventAndVerdictHasAForm() {
    for (Event.Kind kind : Event.Kind.values()) {
      assertThat(Json.schemas().get("event"))
          .contains("\"const\": \"" + kind.name().toLowerCase(Locale.ROOT) + "\"");
    }
    for (Verdict.Kind kind : Verdict.Kind.values()) {
      assertThat(Json.schemas().get("decision"))
          .contains("\"const\": \"" + kind.name().replace('_', ' ') + "\"");
    }
  }

  // The first decision of every bundled protocol asks for whatever the protocol asks for.
  @Test
  void theAgendaOfEveryProtocolComesBack() {
    Library library = Bundled.library();
    for (String id : library.protocols()) {
      Protocol protocol = library.protocol(id);
      Person.Builder person =
          Walked.person(Math.max(20, protocol.eligibility().youngest()), Person.Sex.MALE, 80)
              .height(Quantity.of(180, Unit.CENTIMETRE));
      Session session = Session.open(protocol, person.build());
      comesBack(session.decide(at("0:00")));
      comesBack(
          session.override(
              at("0:00"),
              new Verdict.Ready(protocol.stages().get(0).id(), List.of()),
              "to see the stage"));
    }
  }

  @Test
  void aPersonComesBack() {
    for (Person person : List.of(Walks.ines(), Walks.otto(), Person.builder().build())) {
      String json = Json.of(person);
      assertThat(Json.toPerson(json)).isEqualTo(person);
      isAsTheSchemaSays("person", json);
    }
  }

  // Every bundled case is a test of its own kind.
  @Test
  void whatCameOutOfEveryBundledCaseComesBack() {
    Library library = Bundled.library();
    IntensityBands bands = library.bands("bands-2011");
    Set<String> seen = new TreeSet<>();
    Set<String> places = new TreeSet<>();
    for (SourceFile file : Bundled.cases()) {
      for (Case one : Cases.read(file).cases()) {
        if (one.expected().errors().isEmpty()) {
          Capacity capacity = Capacity.of(one.play(library).outcome());
          String json = Json.of(capacity);
          Capacity back = Json.toCapacity(json);
          assertThat(back).as(one.id()).isEqualTo(capacity);
          assertThat(Json.of(back)).isEqualTo(json);
          isAsTheSchemaSays("capacity", json);
          planComesBack(Training.plan(capacity, bands), bands);
          for (Standing standing : capacity.standings(library.norms())) {
            places.add(comesBack(standing, library.norms()));
          }
          capacity
              .estimates()
              .forEach(estimate -> seen.add(estimate.match(a -> "made", i -> "not real", u -> "")));
        }
      }
    }
    assertThat(seen).containsExactly("", "made", "not real");
    assertThat(places).containsExactly("AmongPercentiles", "InClass");
  }

  private static void planComesBack(Training plan, IntensityBands bands) {
    String json = Json.of(plan);
    assertThat(Json.toTraining(json, bands)).isEqualTo(plan);
    assertThat(Json.of(Json.toTraining(json, bands))).isEqualTo(json);
    isAsTheSchemaSays("training", json);
  }

  private static String comesBack(Standing standing, List<NormTable> tables) {
    String json = Json.of(standing);
    assertThat(Json.toStanding(json, tables)).isEqualTo(standing);
    isAsTheSchemaSays("standing", json);
    return standing.getClass().getSimpleName();
  }

  @Test
  void aPlanShowsWhatAScreenNeedsAndIsReadWithItsOwnBandsOnly() {
    Library library = Bundled.library();
    IntensityBands bands = library.bands("bands-2011");
    Session walked = Cases.read(Bundled.cases().get(0)).cases().get(0).play(library);
    Training plan = Training.plan(Capacity.of(walked.outcome()), bands);
    String json = Json.of(plan);
    assertThat(json).contains("\"id\": \"bands-2011\"", "\"heartRate\"");
    assertThatThrownBy(() -> Json.toTraining(json.replace("bands-2011", "bands-1900"), bands))
        .isInstanceOf(JsonRefused.class)
        .hasMessageContaining("training.bands.id is bands-1900");
    Standing nowhere =
        new Standing.Nowhere(
            library.norms().get(0), Message.of(Joined.ALONE, new FileText("too young")));
    assertThat(comesBack(nowhere, library.norms())).isEqualTo("Nowhere");
    assertThatThrownBy(() -> Json.toStanding(Json.of(nowhere), List.of()))
        .isInstanceOf(JsonRefused.class)
        .hasMessageContaining("standing.table.id is no table");
  }

  // A session alone makes an outcome: what is kept of it is the record.
  @Test
  void anOutcomeIsWrittenAndComesBackByItsRecord() {
    Library library = Bundled.library();
    for (SourceFile file : Bundled.cases()) {
      for (Case one : Cases.read(file).cases()) {
        if (one.expected().errors().isEmpty()) {
          Session played = one.play(library);
          String json = Json.of(played.outcome());
          isAsTheSchemaSays("outcome", json);
          assertThat(json).contains("\"digest\": \"" + played.protocol().heading().digest());
          Session again =
              Session.resume(
                  played.protocol(), played.outcome().person(), played.events(), Ledger.NONE);
          assertThat(Json.of(again.outcome())).as(one.id()).isEqualTo(json);
        }
      }
    }
  }

  @Test
  void aProtocolIsWrittenWithEverythingThatAScreenShows() {
    Library library = Bundled.library();
    for (String id : library.protocols()) {
      Protocol protocol = library.protocol(id);
      String json = Json.of(protocol);
      isAsTheSchemaSays("protocol", json);
      protocol.stages().forEach(stage -> assertThat(json).contains('"' + stage.id() + '"'));
      protocol.rules().anyTime().forEach(rule -> assertThat(json).contains('"' + rule.id() + '"'));
      protocol.settings().keySet().forEach(name -> assertThat(json).contains('"' + name + '"'));
    }
    assertThat(Json.of(library.protocol("graded-walk-standard")))
        .contains(
            "\"name\": \"speed\", \"value\": {\"amount\": 1.7, \"unit\": \"mph\"}",
            "hold 1 min at most 2 times when not steady",
            "\"digest\": \"" + library.protocol("graded-walk-standard").heading().digest());
  }

  @Test
  void aDiagnosticComesBackWithItsPlaces() {
    SourceFile file =
        SourceFile.of("walk.yaml", "kind: protocol\nformat: 1\nid: walk\nnaem: walk\nid: other\n");
    List<Diagnostic> problems = new ArrayList<>();
    try {
      Library.of(List.of(file));
    } catch (FileRefused refused) {
      problems.addAll(refused.diagnostics());
    }
    assertThat(problems).hasSizeGreaterThan(1);
    for (Diagnostic problem : problems) {
      String json = Json.of(problem);
      Diagnostic back = Json.toDiagnostic(json, List.of(file));
      assertThat(back).isEqualTo(problem);
      assertThat(back).hasToString(problem.toString());
      isAsTheSchemaSays("diagnostic", json);
      assertThatThrownBy(() -> Json.toDiagnostic(json, List.of()))
          .isInstanceOf(JsonRefused.class)
          .hasMessageContaining("file is none of those given");
      SourceFile shorter = SourceFile.of("walk.yaml", "");
      if (problem.where().end() > 0) {
        assertThatThrownBy(() -> Json.toDiagnostic(json, List.of(shorter)))
            .hasMessageContaining("outside the file");
      }
    }
  }

  @Test
  void everyFormHasItsSchema() {
    assertThat(Json.schemas().keySet())
        .containsExactly(
            "agenda",
            "capacity",
            "decision",
            "diagnostic",
            "event",
            "outcome",
            "person",
            "protocol",
            "refusal",
            "standing",
            "training");
  }

  @Test
  void aCapacityThatCannotBeIsRefusedByItsField() {
    String json = Json.of(Capacity.of(Walks.walking(Walks.ines()).outcome()));
    assertThatThrownBy(() -> Json.toCapacity(json.replace("\"not_needed\"", "\"perhaps\"")))
        .isInstanceOf(JsonRefused.class)
        .hasMessageContaining("capacity.clearance");
    assertThatThrownBy(() -> Json.toCapacity(json.replace("\"unavailable\"", "\"lost\"")))
        .hasMessageContaining("is not how an estimate comes out");
    assertThatThrownBy(() -> Json.toCapacity("{}")).hasMessageContaining("capacity.");
  }

  @Test
  void anAmountKeepsItsNumberAndUnit() {
    Session session = Walks.walking(Walks.ines());
    Decision decision = session.decide(at("0:10"));
    assertThat(Json.of(decision)).contains("{\"amount\": 1.7, \"unit\": \"mph\"}");
    Event set = new Event.LoadSet(new Loading("speed", Quantity.of(1.7, Unit.MPH)), at("0:10"));
    assertThat(Json.toEvent(Json.of(set))).isEqualTo(set);
  }

  // What a page shows is what it sends back to follow it.
  @Test
  void theVerdictOfADecisionCanBeSentBackAsFollowed() {
    Session session = Walks.walking(Walks.ines());
    Decision stop = session.report(at("1:00"), "chest_pain");
    Event followed = new Event.Followed(Json.toDecision(Json.of(stop)).verdict(), stop.at());
    assertThat(session.fork().tell(Json.toEvent(Json.of(followed))))
        .isEqualTo(session.follow(stop));
  }

  @Test
  void whatDoesNotFitIsRefusedByTheFieldThatDoesNot() {
    String decision = Json.of(Walks.walking(Walks.ines()).decide(at("0:10")));
    Map<String, String> wrong =
        Map.of(
            "{}", "what is missing",
            "[]", "not an object",
            "{", "",
            "{\"what\": \"jumped\"}", "event.what is no event",
            "{\"what\": \"abandoned\", \"at\": \"soon\", \"reason\": \"x\"}", "event.at",
            "{\"what\": \"abandoned\", \"at\": \"PT1S\", \"reason\": 5}", "event.reason",
            "{\"what\": \"abandoned\", \"at\": \"PT1S\", \"reason\": \"x\", \"more\": 1}", "more");
    wrong.forEach(
        (json, problem) ->
            assertThatThrownBy(() -> Json.toEvent(json))
                .as(json)
                .isInstanceOf(JsonRefused.class)
                .hasMessageContaining(problem));
    assertThatThrownBy(() -> Json.toDecision(decision.replace("\"CONTINUE\"", "\"STOP\"")))
        .isInstanceOf(JsonRefused.class);
    assertThatThrownBy(() -> Json.toDecision(decision.replaceFirst("\"CONTINUE\"", "\"HOLD\"")))
        .hasMessageContaining("kind is not that of the verdict, CONTINUE");
  }

  @Property(tries = 300, seed = "20261204")
  void aChangedCharacterIsReadOrRefused(@ForAll Random random) {
    Session session = Walks.walking(Walks.ines());
    StringBuilder json = new StringBuilder(Json.of(session.decide(at("0:10"))));
    json.setCharAt(random.nextInt(json.length()), (char) (32 + random.nextInt(95)));
    try {
      Json.toDecision(json.toString());
    } catch (GradusException refused) {
      assertThat(refused).isInstanceOf(JsonRefused.class);
    }
  }

  @Test
  void aRefusalSaysItsCodeArgumentsAndPlaces() {
    List<String> refusals = new ArrayList<>();
    try {
      Walks.walking(Walks.ines()).record(at("0:10"), heartRate(700));
    } catch (GradusException refused) {
      refusals.add(Json.of(refused));
    }
    try {
      Library.of(List.of(SourceFile.of("walk.yaml", "kind: protocol\nnaem: walk\n")));
    } catch (FileRefused refused) {
      refusals.add(Json.of(refused));
    }
    refusals.forEach(json -> isAsTheSchemaSays("refusal", json));
    assertThat(refusals.get(0)).contains("\"ReadingRefused\"", "\"G502\"", "\"700 bpm\"");
    assertThat(refusals.get(1)).contains("\"walk.yaml\"", "\"G303\"", "\"line\": 1");
  }
}
