package org.gradus.jackson;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.gradus.session.Readings.answer;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.pulse;
import static org.gradus.session.Readings.resting;
import static org.gradus.session.Times.at;
import static org.gradus.session.Times.seconds;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonMappingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.List;
import java.util.Map;
import org.gradus.bundled.Bundled;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Standing;
import org.gradus.diagnostic.JsonRefused;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.history.Json;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.session.Agenda;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Session;
import org.gradus.training.Training;
import org.gradus.unit.Quantities;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** What Jackson writes is the wire form, and it reads back what it wrote. */
class GradusModuleTest {

  private static final Library LIBRARY = Bundled.library("graded-walk-standard");
  private static final ObjectMapper MAPPER =
      new ObjectMapper().registerModule(new GradusModule(LIBRARY));
  private static final Person WOMAN =
      Person.builder()
          .age(46)
          .sex(Person.Sex.FEMALE)
          .mass(Quantities.kg(71))
          .cleared(true)
          .lowersHeartRate(false)
          .build();
  private static final Session SESSION =
      Session.open(LIBRARY.protocol("graded-walk-standard"), WOMAN);

  /** A class of a host. */
  record Shown(String room, Decision now, List<Event> told, Map<String, Agenda> by, Person who) {}

  /** Another one, with what comes after the test. */
  record Result(Capacity capacity, Training plan, List<Standing> places) {}

  @BeforeAll
  static void walk() {
    SESSION.record(
        at("0:00"),
        resting(heartRate(68)),
        resting(pressure(122, 78)),
        answer("unwell_today", false),
        answer("recent_event", false),
        answer("pregnant", false));
    SESSION.follow(SESSION.decide(at("0:00")));
    SESSION.record(at("2:00"), pulse(26, seconds(15)));
    SESSION.record(at("3:00"), pulse(26, seconds(15)));
  }

  private static Decision now() {
    return SESSION.decide(at("3:00"));
  }

  @Test
  void aClassOfAHostIsReadAsItWasWritten() throws JsonProcessingException {
    Shown shown = new Shown("2", now(), SESSION.events(), Map.of("now", now().agenda()), WOMAN);
    String json = MAPPER.writeValueAsString(shown);
    assertThat(MAPPER.readValue(json, Shown.class)).isEqualTo(shown);
    assertThat(MAPPER.readTree(json).get("now")).isEqualTo(MAPPER.readTree(Json.of(now())));
    assertThat(json).contains("{\"amount\":2.5,\"unit\":\"mph\"}");
  }

  @Test
  void aResultIsReadWithItsLibrary() throws JsonProcessingException {
    Capacity capacity = Capacity.of(SESSION.outcome());
    Training plan = Training.plan(capacity, LIBRARY.bands("bands-2011"));
    Standing place =
        Standing.of(
            LIBRARY.norm("treadmill_2015_women"),
            WOMAN,
            Quantity.of(31, Unit.ML_PER_KG_PER_MINUTE));
    Result result = new Result(capacity, plan, List.of(place));
    String json = MAPPER.writeValueAsString(result);
    assertThat(MAPPER.readValue(json, Result.class)).isEqualTo(result);
    ObjectMapper alone = new ObjectMapper().registerModule(new GradusModule());
    assertThat(alone.writeValueAsString(result)).isEqualTo(json);
    assertThatThrownBy(() -> alone.readValue(json, Result.class))
        .isInstanceOf(JsonMappingException.class)
        .hasMessageContaining("only written");
  }

  @Test
  void itGoesThroughTreesAndSubtypes() throws JsonProcessingException {
    Event first = SESSION.events().get(0);
    JsonNode tree = MAPPER.valueToTree(first);
    assertThat(MAPPER.treeToValue(tree, Event.class)).isEqualTo(first);
    assertThat(MAPPER.treeToValue(tree, Event.Read.class)).isEqualTo(first);
    assertThatThrownBy(() -> MAPPER.treeToValue(tree, Event.Reported.class))
        .isInstanceOf(JsonMappingException.class)
        .hasMessageContaining("not a");
  }

  @Test
  void whatIsOnlyWrittenHasTheSameForm() throws JsonProcessingException {
    assertThat(MAPPER.readTree(MAPPER.writeValueAsString(SESSION.outcome())))
        .isEqualTo(MAPPER.readTree(Json.of(SESSION.outcome())));
    assertThat(MAPPER.readTree(MAPPER.writeValueAsString(SESSION.protocol())))
        .isEqualTo(MAPPER.readTree(Json.of(SESSION.protocol())));
    ReadingRefused refused =
        catchThrowableOfType(
            ReadingRefused.class, () -> SESSION.fork().record(at("3:01"), heartRate(700)));
    assertThat(MAPPER.readTree(MAPPER.writeValueAsString(refused)))
        .isEqualTo(MAPPER.readTree(Json.of(refused)));
  }

  @Test
  void whatDoesNotFitIsRefusedWithItsField() {
    assertThatThrownBy(
            () -> MAPPER.readValue("{\"room\": \"2\", \"told\": [{\"what\": \"x\"}]}", Shown.class))
        .isInstanceOf(JsonMappingException.class)
        .hasMessageContaining("event.what")
        .hasCauseInstanceOf(JsonRefused.class);
  }

  @Test
  void itIsFoundAsAService() throws JsonProcessingException {
    ObjectMapper found = new ObjectMapper().findAndRegisterModules();
    assertThat(found.readValue(Json.of(WOMAN), Person.class)).isEqualTo(WOMAN);
  }
}
