package org.gradus.history;

import static java.util.Objects.requireNonNull;

import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Standing;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.GradusException;
import org.gradus.diagnostic.JsonRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.knowledge.IntensityBands;
import org.gradus.knowledge.NormTable;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.session.Agenda;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Outcome;
import org.gradus.training.Training;

/**
 * To and from JSON: what a host stores or sends to a screen.
 *
 * <pre>{@code
 * String answer = Json.of(session.decide(at("3:00")));
 * Decision decision = Json.toDecision(answer);             // equal to the one that was written
 * session.asEvent(7).tell(Json.toEvent(body));             // {"what": "reported", "at": "PT5M10S", ...}
 * }</pre>
 *
 * <p>What is read is checked: a field that is missing, unknown or of another shape is refused with
 * {@link JsonRefused}, which names it. An amount keeps its number and unit as they were written,
 * 1.7 mph and not 1.6999999999999997. Times are durations since the start of the session ({@code
 * PT3M30S}). {@link #schemas} describes each form. An event has the same form in the lines of a
 * {@link TestRecord}.
 *
 * <p>{@link #write} also writes whatever else a host wants to hand on to a program.
 *
 * <pre>{@code
 * Json.write(Map.of("stages", List.of("up_1", "up_2")));   // {"stages": ["up_1", "up_2"]}
 * }</pre>
 *
 * <p>The form is that of RFC 8259, written so that a parser of YAML 1.2 reads the same out of it:
 * on one line, with a blank after each colon and comma, and with every character outside ASCII as
 * {@code \}{@code uXXXX}. YAML has no names of more than 1024 characters; JSON has.
 */
public final class Json {

  private Json() {}

  /** An event, on one line. */
  public static String of(Event event) {
    return write(EventForm.EVENT.write(requireNonNull(event, "event")));
  }

  /** A decision with its agenda, on one line. */
  public static String of(Decision decision) {
    return write(DecisionForm.DECISION.write(requireNonNull(decision, "decision")));
  }

  /** An agenda by itself, on one line. */
  public static String of(Agenda agenda) {
    return write(DecisionForm.AGENDA.write(requireNonNull(agenda, "agenda")));
  }

  /**
   * A person, on one line: each fact under the name that rules use, as an amount; a condition is 1
   * or 0, and sex 0 for female and 1 for male.
   */
  public static String of(Person person) {
    return write(PersonForm.PERSON.write(requireNonNull(person, "person")));
  }

  /**
   * What came out of a test, on one line: estimates, other results, findings, and what plans and
   * comparisons need to know of the test. {@link Capacity#headline} of what is read back is the
   * result that a report shows first.
   */
  public static String of(Capacity capacity) {
    return write(CapacityForm.CAPACITY.write(requireNonNull(capacity, "capacity")));
  }

  /**
   * A training plan, on one line. Bands and ways to exercise stand in it by id, title and source;
   * {@link #toTraining} looks them up.
   */
  public static String of(Training plan) {
    return write(PlanForm.training(List.of()).write(requireNonNull(plan, "plan")));
  }

  /**
   * A place among norms, on one line, with its words. The table stands in it by id, edition and
   * source; {@link #toStanding} looks it up.
   */
  public static String of(Standing standing) {
    return write(PlanForm.standing(List.of()).write(requireNonNull(standing, "standing")));
  }

  /**
   * A test as it stands, on one line: the protocol with its digest and settings, the person, the
   * phase, how it ended, and the stages that were done with their loads. It is written only: a
   * session alone makes an outcome, so what is kept of a test is its record, and {@code
   * TestRecord.parse(...).resume(...).outcome()} is the same outcome.
   */
  public static String of(Outcome outcome) {
    return write(ProtocolForm.OUTCOME.write(requireNonNull(outcome, "outcome")));
  }

  /**
   * A protocol as a screen shows it, on one line: id, version and digest, whom it is for, settings,
   * signals, signs, questions, what is measured when, stages with their loads, rules as their text,
   * results and sources. It is written only: a library alone makes a protocol, which it has proved,
   * and {@code library.protocol(id)} of the same digest is the same protocol.
   */
  public static String of(Protocol protocol) {
    return write(ProtocolForm.PROTOCOL.write(requireNonNull(protocol, "protocol")));
  }

  /**
   * A problem of a file, on one line: code, message, arguments, help, and every place as offsets
   * and as line and column.
   */
  public static String of(Diagnostic diagnostic) {
    return write(DiagnosticForm.of(List.of()).write(requireNonNull(diagnostic, "diagnostic")));
  }

  /**
   * A refusal, on one line: its type, code, message, arguments and remedy; for a file with every
   * problem and its place.
   */
  public static String of(GradusException refusal) {
    return write(DiagnosticForm.REFUSAL.write(requireNonNull(refusal, "refusal")));
  }

  /**
   * The event that a text says.
   *
   * @throws JsonRefused when it is none; the message names the field
   */
  public static Event toEvent(String json) {
    return read("event", EventForm.EVENT, json);
  }

  /**
   * The decision that a text says. A session does not follow it unless it decides the same.
   *
   * @throws JsonRefused when it is none; the message names the field
   */
  public static Decision toDecision(String json) {
    return read("decision", DecisionForm.DECISION, json);
  }

  /**
   * The agenda that a text says.
   *
   * @throws JsonRefused when it is none; the message names the field
   */
  public static Agenda toAgenda(String json) {
    return read("agenda", DecisionForm.AGENDA, json);
  }

  /**
   * The person that a text says.
   *
   * @throws JsonRefused when it is none; the message names the field
   */
  public static Person toPerson(String json) {
    return read("person", PersonForm.PERSON, json);
  }

  /**
   * What came out of a test, as a text says.
   *
   * @throws JsonRefused when it says something else; the message names the field
   */
  public static Capacity toCapacity(String json) {
    return read("capacity", CapacityForm.CAPACITY, json);
  }

  /**
   * The training plan that a text says.
   *
   * @param bands those that the plan was made by: {@code library.bands(id)}
   * @throws JsonRefused when it is none, or was made by other bands or another version of them; the
   *     message names the field
   */
  public static Training toTraining(String json, IntensityBands bands) {
    return read("training", PlanForm.training(List.of(requireNonNull(bands, "bands"))), json);
  }

  /**
   * The place among norms that a text says.
   *
   * @param tables those among which its table is: {@code library.norms()}
   * @throws JsonRefused when it is none, or its table is none of these; the message names the field
   */
  public static Standing toStanding(String json, List<NormTable> tables) {
    return read("standing", PlanForm.standing(requireNonNull(tables, "tables")), json);
  }

  /**
   * The problem of a file that a text says.
   *
   * @param files the files that it may speak of, such as those that were uploaded
   * @throws JsonRefused when it is none, or speaks of another file or of a place outside it; the
   *     message names the field
   */
  public static Diagnostic toDiagnostic(String json, Collection<SourceFile> files) {
    return read("diagnostic", DiagnosticForm.of(requireNonNull(files, "files")), json);
  }

  private static <T> T read(String what, Form<T> form, String json) {
    requireNonNull(json, "json");
    try {
      return form.read(new Fields("", Map.of(what, Fields.json(json))), what);
    } catch (Unreadable problem) {
      throw new JsonRefused(what, String.valueOf(problem.getMessage()).strip());
    }
  }

  /**
   * The JSON Schema (draft 2020-12) of everything that is read or written here, by name: {@code
   * agenda}, {@code capacity}, {@code decision}, {@code diagnostic}, {@code event}, {@code
   * outcome}, {@code person}, {@code protocol}, {@code refusal}, {@code standing}, {@code
   * training}.
   */
  public static Map<String, String> schemas() {
    Map<String, String> schemas = new TreeMap<>();
    schemas.put("agenda", schema(DecisionForm.AGENDA.schema()));
    schemas.put("capacity", schema(CapacityForm.CAPACITY.schema()));
    schemas.put("decision", schema(DecisionForm.DECISION.schema()));
    schemas.put("event", schema(EventForm.EVENT.schema()));
    schemas.put("person", schema(PersonForm.PERSON.schema()));
    schemas.put("diagnostic", schema(DiagnosticForm.of(List.of()).schema()));
    schemas.put("outcome", schema(ProtocolForm.OUTCOME.schema()));
    schemas.put("protocol", schema(ProtocolForm.PROTOCOL.schema()));
    schemas.put("refusal", schema(DiagnosticForm.REFUSAL.schema()));
    schemas.put("standing", schema(PlanForm.standing(List.of()).schema()));
    schemas.put("training", schema(PlanForm.training(List.of()).schema()));
    return schemas;
  }

  private static String schema(Map<String, Object> body) {
    Map<String, Object> schema =
        Lines.map("$schema", "https://json-schema.org/draft/2020-12/schema");
    schema.putAll(body);
    return write(schema);
  }

  /**
   * A value as JSON.
   *
   * <p>A map becomes an object, in the order of the map and with the text of each key as a name; a
   * collection becomes an array. Numbers and truths stand as they are, a number that is not finite
   * as {@code null}, since JSON has no word for it. Anything else becomes a string: its {@link
   * Object#toString}.
   *
   * @param value the value; nothing in it is null, and no map or collection holds itself
   * @return one line without a line break
   */
  public static String write(Object value) {
    StringBuilder out = new StringBuilder();
    write(value, out);
    return out.toString();
  }

  private static void write(Object value, StringBuilder out) {
    if (value instanceof Map<?, ?> map) {
      String separator = "{";
      for (Map.Entry<?, ?> entry : map.entrySet()) {
        out.append(separator);
        text(entry.getKey().toString(), out);
        out.append(": ");
        write(entry.getValue(), out);
        separator = ", ";
      }
      out.append(map.isEmpty() ? "{}" : "}");
    } else if (value instanceof Collection<?> list) {
      String separator = "[";
      for (Object item : list) {
        out.append(separator);
        write(item, out);
        separator = ", ";
      }
      out.append(list.isEmpty() ? "[]" : "]");
    } else if (isNoNumber(value)) {
      out.append("null");
    } else if (value instanceof Number || value instanceof Boolean) {
      out.append(value);
    } else {
      text(value.toString(), out);
    }
  }

  private static boolean isNoNumber(Object value) {
    return (value instanceof Double wide && !Double.isFinite(wide))
        || (value instanceof Float narrow && !Float.isFinite(narrow));
  }

  private static void text(String text, StringBuilder out) {
    out.append('"');
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      // Besides what JSON asks for: whatever YAML takes for a line break or does not print.
      boolean plain = c >= 0x20 && c != '"' && c != '\\' && c < 0x7F;
      out.append(plain ? Character.toString(c) : String.format(Locale.ROOT, "\\u%04x", (int) c));
    }
    out.append('"');
  }
}
