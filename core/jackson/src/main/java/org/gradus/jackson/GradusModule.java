package org.gradus.jackson;

import static java.util.Objects.requireNonNull;

import com.fasterxml.jackson.core.Version;
import com.fasterxml.jackson.databind.BeanDescription;
import com.fasterxml.jackson.databind.DeserializationConfig;
import com.fasterxml.jackson.databind.JavaType;
import com.fasterxml.jackson.databind.JsonDeserializer;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.JsonSerializer;
import com.fasterxml.jackson.databind.Module;
import com.fasterxml.jackson.databind.SerializationConfig;
import com.fasterxml.jackson.databind.deser.Deserializers;
import com.fasterxml.jackson.databind.ser.Serializers;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Standing;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.GradusException;
import org.gradus.history.Json;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.session.Agenda;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Outcome;
import org.gradus.training.Training;
import org.jspecify.annotations.Nullable;

/**
 * Lets an object mapper of Jackson 2 write and read the values of Gradus, in the one form that
 * {@link Json} has and its schemas describe.
 *
 * <pre>{@code
 * ObjectMapper mapper = new ObjectMapper().registerModule(new GradusModule(library));
 * record Shown(Decision now, List<Event> told) {}              // a class of the host
 * String answer = mapper.writeValueAsString(new Shown(decision, session.events()));
 * Shown again = mapper.readValue(answer, Shown.class);         // equal to the one that was written
 * }</pre>
 *
 * <p>Written and read: events, decisions, agendas, persons and capacities; with a library also
 * training plans and places among norms, whose bands and tables are looked up in it. Written only:
 * outcomes, protocols, diagnostics and refusals; see {@link Json} for how each is had again. What
 * does not fit is a {@link com.fasterxml.jackson.databind.JsonMappingException} with the refusal as
 * its cause. A mapper with this module may be shared between threads as any other.
 */
public final class GradusModule extends Module {

  private final List<Bound<?>> bound = new ArrayList<>();

  /** Without a library: training plans and places among norms are written only. */
  public GradusModule() {
    this(Optional.empty());
  }

  /**
   * With a library, in which the bands of a training plan and the table of a place among norms are
   * looked up.
   */
  public GradusModule(Library library) {
    this(Optional.of(requireNonNull(library, "library")));
  }

  private GradusModule(Optional<Library> library) {
    both(Event.class, Json::of, Json::toEvent);
    both(Decision.class, Json::of, Json::toDecision);
    both(Agenda.class, Json::of, Json::toAgenda);
    both(Person.class, Json::of, Json::toPerson);
    both(Capacity.class, Json::of, Json::toCapacity);
    bound.add(
        new Bound<>(
            Training.class,
            Json::of,
            library.map(files -> (tree, json) -> Json.toTraining(json, files.bands(bands(tree))))));
    bound.add(
        new Bound<>(
            Standing.class,
            Json::of,
            library.map(files -> (tree, json) -> Json.toStanding(json, files.norms()))));
    written(Outcome.class, Json::of);
    written(Protocol.class, Json::of);
    written(Diagnostic.class, Json::of);
    written(GradusException.class, Json::of);
  }

  private static String bands(JsonNode plan) {
    return plan.path("bands").path("id").asText();
  }

  private <T> void both(Class<T> type, Bound.Writer<T> write, Bound.Plain<T> read) {
    bound.add(new Bound<>(type, write, Optional.of((tree, json) -> read.read(json))));
  }

  private <T> void written(Class<T> type, Bound.Writer<T> write) {
    bound.add(new Bound<>(type, write, Optional.empty()));
  }

  private Optional<Bound<?>> of(Class<?> type) {
    return bound.stream().filter(one -> one.type().isAssignableFrom(type)).findFirst();
  }

  @Override
  public String getModuleName() {
    return "gradus";
  }

  @Override
  public Version version() {
    return Version.unknownVersion();
  }

  @Override
  public void setupModule(SetupContext context) {
    context.addSerializers(
        new Serializers.Base() {
          @Override
          public @Nullable JsonSerializer<?> findSerializer(
              SerializationConfig config, JavaType type, BeanDescription description) {
            return of(type.getRawClass()).map(Bound::serializer).orElse(null);
          }
        });
    context.addDeserializers(
        new Deserializers.Base() {
          @Override
          public @Nullable JsonDeserializer<?> findBeanDeserializer(
              JavaType type, DeserializationConfig config, BeanDescription description) {
            return of(type.getRawClass())
                .map(one -> one.deserializer(type.getRawClass()))
                .orElse(null);
          }
        });
  }
}
