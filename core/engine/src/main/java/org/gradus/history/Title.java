package org.gradus.history;

import static java.util.Objects.requireNonNull;

import java.time.ZonedDateTime;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.diagnostic.RecordRefused;
import org.gradus.diagnostic.SettingRefused;
import org.gradus.library.Library;
import org.gradus.protocol.Fingerprint;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Setting;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/**
 * What stands at the head of a record: which protocol, what it means item by item, its settings,
 * and the person as far as rules need to know.
 *
 * @param protocol the id of the protocol
 * @param version its version
 * @param fingerprint what the protocol means, item by item, as digests; of its words for people one
 *     digest that need not be equal when the test is taken up again
 * @param settings its settings, by name, as they are written
 * @param person the person
 * @param identity whose test it is, in whatever words the host uses; empty when it is kept
 *     elsewhere
 * @param begun when the session was opened, by the host's clock and in its zone; empty when the
 *     host does not say
 */
public record Title(
    String protocol,
    String version,
    Fingerprint fingerprint,
    Map<String, String> settings,
    Person person,
    Optional<String> identity,
    Optional<ZonedDateTime> begun) {

  private static final int FORMAT = 2;

  // How many differing items a refusal names.
  private static final int MOST_NAMED = 8;

  /** The most characters of an identity; a longer one is refused. */
  public static final int LONGEST_IDENTITY = 2_000;

  private static final Pattern WORD = Pattern.compile("[A-Za-z0-9_-]{1,200}");

  /**
   * A head of these parts.
   *
   * @throws ReadingRefused when the identity is longer than {@link #LONGEST_IDENTITY} characters
   */
  public Title {
    requireNonNull(begun, "begun");
    requireNonNull(fingerprint, "fingerprint");
    requireNonNull(person, "person");
    requireNonNull(protocol, "protocol");
    requireNonNull(settings, "settings");
    requireNonNull(version, "version");
    int length = identity.map(String::length).orElse(0);
    if (length > LONGEST_IDENTITY) {
      throw new ReadingRefused(
          Code.G511, "the identity", Integer.toString(length), Integer.toString(LONGEST_IDENTITY));
    }
    settings = java.util.Collections.unmodifiableMap(new LinkedHashMap<>(settings));
  }

  /** The head of a record of a test by this protocol. */
  public static Title of(Protocol protocol, Person person, Optional<String> identity) {
    requireNonNull(person, "person");
    Map<String, String> settings = new LinkedHashMap<>();
    protocol.settings().forEach((name, setting) -> settings.put(name, written(setting.value())));
    return new Title(
        protocol.id(),
        protocol.heading().version(),
        protocol.heading().fingerprint(),
        settings,
        person,
        identity,
        Optional.empty());
  }

  /**
   * The same with the moment at which the session was opened, which the times of the record count
   * from. No rule looks at it; it is for people who read the record.
   *
   * <pre>{@code
   * Title.of(protocol, person, Optional.empty()).begun(ZonedDateTime.now(ZoneId.systemDefault()))
   * }</pre>
   *
   * @param moment by the host's clock, with its zone
   */
  public Title begun(ZonedDateTime moment) {
    requireNonNull(moment, "moment");
    return new Title(
        protocol, version, fingerprint, settings, person, identity, Optional.of(moment));
  }

  /** The same without identity. */
  public Title withoutIdentity() {
    return new Title(protocol, version, fingerprint, settings, person, Optional.empty(), begun);
  }

  /**
   * The protocol of the record, with its settings, out of a library in which it means the same.
   *
   * @throws RecordRefused when it means something else there; the message names what differs
   */
  Protocol exactly(Library library) {
    Protocol found = among(library);
    List<String> differences = fingerprint.differences(found.heading().fingerprint());
    if (!differences.isEmpty()) {
      int more = differences.size() - MOST_NAMED;
      String named =
          String.join(", ", differences.stream().limit(MOST_NAMED).toList())
              + (more > 0 ? " and " + more + " more" : "");
      throw new RecordRefused(
          Code.G608,
          differences,
          protocol + " " + version,
          found.toString(),
          named,
          "use the files that were kept beside the record, or rerun it with these"
              + replaced(found));
    }
    return found;
  }

  // Files of a record may name equations by ids that have since been replaced.
  private static String replaced(Protocol found) {
    return found.assessment().replaced().entrySet().stream()
        .map(entry -> "; " + entry.getValue() + " now replaces " + entry.getKey())
        .collect(Collectors.joining());
  }

  /** Whether the words for people are those of the record: titles, reasons, instructions. */
  boolean hasTexts(Protocol found) {
    return found.heading().fingerprint().texts().equals(fingerprint.texts());
  }

  /**
   * The protocol of that id in a library, with the settings of the record as far as it has them.
   */
  Protocol among(Library library) {
    Protocol found = library.protocol(protocol);
    for (Map.Entry<String, String> entry : settings.entrySet()) {
      Setting setting = found.settings().get(entry.getKey());
      if (setting != null && !written(setting.value()).equals(entry.getValue())) {
        found = with(found, setting, entry.getValue());
      }
    }
    return found;
  }

  private Protocol with(Protocol found, Setting setting, String value) {
    String field = "settings." + setting.name();
    try {
      if (setting.value() instanceof Setting.Word) {
        return found.with(setting.name(), value);
      }
      Optional<Quantity> quantity = quantity(value);
      if (quantity.isPresent()) {
        return found.with(setting.name(), quantity.get());
      }
      throw new Unreadable(field, "is " + Unreadable.shown(value) + ", not an amount")
          .inLine(protocol, 1);
    } catch (SettingRefused refused) {
      throw new RecordRefused(
          Code.G615, refused, protocol, "1", field, String.valueOf(refused.getMessage()));
    }
  }

  // As people write it, or with all its digits where those would be another amount.
  private static String written(Setting.Value value) {
    String shown = value.toString();
    if (!(value instanceof Setting.Figure figure)) {
      return shown;
    }
    double amount = figure.quantity().amount();
    boolean exact = quantity(shown).filter(read -> read.amount() == amount).isPresent();
    String symbol = figure.quantity().unit().symbol();
    return exact ? shown : (amount + " " + symbol).strip();
  }

  private static Optional<Quantity> quantity(String text) {
    int blank = text.indexOf(' ');
    Optional<Unit> unit = blank < 0 ? Optional.of(Unit.ONE) : Unit.named(text.substring(blank + 1));
    try {
      return Fields.json(blank < 0 ? text : text.substring(0, blank)) instanceof Number number
              && Double.isFinite(number.doubleValue())
          ? unit.map(known -> Quantity.of(number.doubleValue(), known))
          : Optional.empty();
    } catch (Unreadable noNumber) {
      return Optional.empty();
    }
  }

  Map<String, Object> write() {
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
            "meaning",
            fingerprint.items(),
            "texts",
            fingerprint.texts(),
            "settings",
            settings,
            "person",
            PersonForm.PERSON.write(person));
    identity.ifPresent(whose -> fields.put("identity", whose));
    begun.ifPresent(moment -> fields.put("begun", moment.toString()));
    return fields;
  }

  static Title read(Fields fields) {
    if (!fields.maybeText("gradus").equals(Optional.of("record"))) {
      throw fields.unreadable("gradus", "does not say that this is a record");
    } else if (fields.whole("format") != FORMAT) {
      throw fields.unreadable("format", "is not " + FORMAT + ", the format of this version");
    }
    fields.only(
        "gradus",
        "format",
        "protocol",
        "version",
        "meaning",
        "texts",
        "settings",
        "person",
        "identity",
        "begun",
        Lines.SUM);
    Fields settings = fields.fields("settings");
    Map<String, String> values = new LinkedHashMap<>();
    for (Object name : settings.content().keySet()) {
      values.put(name.toString(), setting(settings, name.toString()));
    }
    return new Title(
        fields.text("protocol"),
        fields.text("version"),
        fingerprint(fields),
        values,
        PersonForm.PERSON.read(fields, "person"),
        fields.has("identity")
            ? Optional.of(fields.text("identity", LONGEST_IDENTITY))
            : Optional.empty(),
        fields.has("begun") ? Optional.of(fields.moment("begun")) : Optional.empty());
  }

  // Which of the two it has to be is known once there is a protocol.
  private static String setting(Fields settings, String name) {
    String value = settings.text(name);
    if (quantity(value).isEmpty() && !WORD.matcher(value).matches()) {
      throw settings.unreadable(
          name, "is " + Unreadable.shown(value) + ", neither an amount nor a word");
    }
    return value;
  }

  private static Fingerprint fingerprint(Fields fields) {
    SortedMap<String, String> items = new TreeMap<>();
    Fields meaning = fields.fields("meaning");
    for (Object name : meaning.content().keySet()) {
      items.put(name.toString(), meaning.text(name.toString()));
    }
    return new Fingerprint(items, fields.text("texts"));
  }
}
