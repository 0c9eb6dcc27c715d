package org.gradus.history;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.JournalFailed;
import org.gradus.diagnostic.VerdictRefused;
import org.gradus.library.Library;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Setting;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/**
 * What stands at the head of a record: which protocol, with which files and settings, and the
 * person as far as rules need to know.
 *
 * @param protocol the id of the protocol
 * @param version its version
 * @param digest the fingerprint of the files and settings
 * @param settings its settings, by name, as they are written
 * @param person the person
 * @param identity whose test it is, in whatever words the host uses; empty when it is kept
 *     elsewhere
 */
public record Title(
    String protocol,
    String version,
    String digest,
    Map<String, String> settings,
    Person person,
    Optional<String> identity) {

  private static final int FORMAT = 1;

  public Title {
    settings = java.util.Collections.unmodifiableMap(new LinkedHashMap<>(settings));
  }

  /** The head of a record of a test by this protocol. */
  public static Title of(Protocol protocol, Person person, Optional<String> identity) {
    Map<String, String> settings = new LinkedHashMap<>();
    protocol.settings().forEach((name, setting) -> settings.put(name, setting.value().toString()));
    return new Title(
        protocol.id(),
        protocol.heading().version(),
        protocol.heading().digest(),
        settings,
        person,
        identity);
  }

  /** The same without identity. */
  public Title withoutIdentity() {
    return new Title(protocol, version, digest, settings, person, Optional.empty());
  }

  /**
   * The protocol of the record, with its settings, out of a library that has the same files.
   *
   * @throws VerdictRefused when the files of the library are others
   */
  Protocol exactly(Library library) {
    Protocol found = among(library);
    if (!found.heading().digest().equals(digest)) {
      throw new VerdictRefused(
          Code.G608,
          protocol + " " + version + " " + digest,
          found + " " + found.heading().digest(),
          "use the files of the record, or rerun it with these" + replaced(found));
    }
    return found;
  }

  // Files of a record may name equations by ids that have since been replaced.
  private static String replaced(Protocol found) {
    return found.assessment().replaced().entrySet().stream()
        .map(entry -> "; " + entry.getValue() + " now replaces " + entry.getKey())
        .collect(Collectors.joining());
  }

  /**
   * The protocol of that id in a library, with the settings of the record as far as it has them.
   */
  Protocol among(Library library) {
    Protocol found = library.protocol(protocol);
    for (Map.Entry<String, String> entry : settings.entrySet()) {
      Setting setting = found.settings().get(entry.getKey());
      if (setting != null && !setting.value().toString().equals(entry.getValue())) {
        found = with(found, setting, entry.getValue());
      }
    }
    return found;
  }

  private static Protocol with(Protocol protocol, Setting setting, String value) {
    int blank = value.lastIndexOf(' ');
    return setting.value() instanceof Setting.Word
        ? protocol.with(setting.name(), value)
        : protocol.with(
            setting.name(),
            blank < 0 ? Quantity.of(Double.parseDouble(value), Unit.ONE) : quantity(value, blank));
  }

  private static Quantity quantity(String value, int blank) {
    Unit unit = Unit.named(value.substring(blank + 1)).orElseThrow(() -> Fields.unreadable(value));
    return Quantity.of(Double.parseDouble(value.substring(0, blank)), unit);
  }

  Map<String, Object> write() {
    Map<String, Object> known = new LinkedHashMap<>();
    for (Attribute attribute : Attribute.values()) {
      person.value(attribute).ifPresent(value -> known.put(attribute.word(), Fields.of(value)));
    }
    Map<String, Object> fields =
        Lines.map(
            "gradus",
            "record",
            "format",
            FORMAT,
            "protocol",
            protocol,
            "version",
            version,
            "digest",
            digest,
            "settings",
            settings,
            "person",
            known);
    identity.ifPresent(whose -> fields.put("identity", whose));
    return fields;
  }

  static Title read(Fields fields, String where) {
    if (!fields.maybeText("gradus").equals(Optional.of("record"))
        || fields.whole("format") != FORMAT) {
      throw new JournalFailed(Code.G607, where, "it is no record of format " + FORMAT);
    }
    Map<String, String> settings = new LinkedHashMap<>();
    fields
        .fields("settings")
        .content()
        .forEach((name, value) -> settings.put(name.toString(), value.toString()));
    return new Title(
        fields.text("protocol"),
        fields.text("version"),
        fields.text("digest"),
        settings,
        person(fields.fields("person")),
        fields.maybeText("identity"));
  }

  private static Person person(Fields fields) {
    Person.Builder builder = Person.builder();
    for (Attribute attribute : Attribute.values()) {
      if (fields.has(attribute.word())) {
        give(builder, attribute, fields.fields(attribute.word()).quantity());
      }
    }
    return builder.build();
  }

  private static void give(Person.Builder builder, Attribute attribute, Quantity value) {
    switch (attribute) {
      case AGE -> builder.age((int) value.amount());
      case SEX -> builder.sex(value.amount() == 0 ? Person.Sex.FEMALE : Person.Sex.MALE);
      case MASS -> builder.mass(value);
      case HEIGHT -> builder.height(value);
      case LOWERS_HEART_RATE -> builder.lowersHeartRate(value.amount() != 0);
      case CLEARED -> builder.cleared(value.amount() != 0);
      case MEASURED_MAX_HEART_RATE -> builder.measuredMaxHeartRate(value);
    }
  }
}
