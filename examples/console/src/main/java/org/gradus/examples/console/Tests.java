package org.gradus.examples.console;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Stream;
import org.gradus.diagnostic.GradusException;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Setting;
import org.gradus.unit.Quantities;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** The tests of a folder: those that go on, and those that are over. */
final class Tests implements AutoCloseable {

  private static final String ENDING = ".jsonl";
  private static final String ID = "[a-z0-9-]{1,120}";
  private static final DateTimeFormatter STAMP =
      DateTimeFormatter.ofPattern("yyyy-MM-dd-HHmmss", Locale.ROOT);

  private final Library library;
  private final Path folder;
  private final double speed;
  private final InstantSource day;
  private final Map<String, LiveTest> open = new ConcurrentHashMap<>();

  /**
   * The tests of a folder.
   *
   * @param speed how fast the clock of new tests runs
   * @param day the time of day
   */
  Tests(Library library, Path folder, double speed, InstantSource day) {
    this.day = day;
    this.library = library;
    this.folder = folder;
    this.speed = speed;
  }

  /** All tests, the latest first. */
  List<Map<String, Object>> list(PageWords words) {
    List<Map<String, Object>> tests = new ArrayList<>();
    try (Stream<Path> files = Files.list(folder)) {
      files
          .filter(file -> String.valueOf(file.getFileName()).matches(ID + "\\" + ENDING))
          .filter(file -> Files.exists(LiveTest.clockOf(file)))
          .sorted(Comparator.<Path>naturalOrder().reversed())
          .forEach(file -> tests.add(listed(file, words)));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return tests;
  }

  private Map<String, Object> listed(Path file, PageWords words) {
    String name = String.valueOf(file.getFileName());
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("id", name.substring(0, name.length() - ENDING.length()));
    try {
      TestRecord record = TestRecord.parse(name, Files.readString(file));
      map.put("protocol", title(record.title().protocol(), words.language().locale()));
      record.title().identity().ifPresent(who -> map.put("identity", who));
      map.put("events", record.entries().size());
      map.put("over", record.isOver());
    } catch (GradusException | IOException e) {
      // A torn last line is cut off when the test is taken up again.
      map.put("protocol", words.say("a record to look at: {0}", String.valueOf(e.getMessage())));
      map.put("events", 0);
      map.put("over", false);
    }
    return map;
  }

  /**
   * The test of an id, taken up again where it is not open.
   *
   * @throws Refusal when there is none
   */
  LiveTest test(String id) {
    Path file = folder.resolve(id + ENDING);
    if (!id.matches(ID) || !Files.isRegularFile(file)) {
      throw new Refusal(404, "There is no test {0}.", id);
    }
    return open.computeIfAbsent(id, name -> LiveTest.reopen(library, file, day));
  }

  /** Opens a new test and returns its id. */
  String create(FormFields form, Locale locale) {
    Protocol protocol = library.protocol(form.text("protocol"));
    PageWords words = PageWords.in(library.language(protocol.id(), locale));
    try {
      return create(form, protocol);
    } catch (Refusal refused) {
      throw refused.said(words);
    } catch (GradusException refused) {
      throw Refusal.of(refused, words);
    }
  }

  private String create(FormFields form, Protocol file) {
    Protocol protocol = file;
    for (Map.Entry<String, String> wanted : form.under("setting.").entrySet()) {
      protocol = with(protocol, wanted.getKey(), wanted.getValue());
    }
    String id = STAMP.format(day.instant().atZone(ZoneId.systemDefault())) + "-" + protocol.id();
    for (int next = 2; Files.exists(folder.resolve(id + ENDING)); next++) {
      id = id.replaceAll("(-again-[0-9]+)?$", "-again-" + next);
    }
    open.put(
        id,
        LiveTest.create(
            library,
            folder.resolve(id + ENDING),
            protocol,
            person(form),
            form.maybe("identity"),
            speed,
            day));
    return id;
  }

  private static Protocol with(Protocol protocol, String name, String value) {
    Setting setting = protocol.settings().get(name);
    if (setting == null) {
      throw new Refusal(422, "This protocol has no setting {0}.", name);
    }
    return setting.value() instanceof Setting.Figure figure
        ? protocol.with(name, Typed.quantity(name, value, figure.quantity().unit()))
        : protocol.with(name, value);
  }

  private static Person person(FormFields form) {
    Person.Builder person = Person.builder();
    if (form.has("age")) {
      person.age(form.whole("age"));
    }
    form.maybe("sex")
        .ifPresent(sex -> person.sex(sex.equals("female") ? Person.Sex.FEMALE : Person.Sex.MALE));
    if (form.has("mass")) {
      person.mass(Quantities.kg(form.number("mass")));
    }
    if (form.has("height")) {
      person.height(Quantity.of(form.number("height") / 100, Unit.METRE));
    }
    if (form.has(Attribute.MEASURED_MAX_HEART_RATE.word())) {
      person.measuredMaxHeartRate(
          Quantity.of(form.number(Attribute.MEASURED_MAX_HEART_RATE.word()), Unit.BPM));
    }
    form.maybe(Attribute.LOWERS_HEART_RATE.word())
        .ifPresent(words -> person.lowersHeartRate(words.equals("yes")));
    form.maybe(Attribute.CLEARED.word()).ifPresent(words -> person.cleared(words.equals("yes")));
    return person.build();
  }

  /** What a page needs to know of each protocol to choose one. */
  List<Map<String, Object>> protocols(Locale locale) {
    return library.protocols().stream()
        .map(id -> described(library.protocol(id), PageWords.in(library.language(id, locale))))
        .toList();
  }

  private String title(String protocol, Locale locale) {
    return library.language(protocol, locale).text(library.protocol(protocol).heading().title());
  }

  private static Map<String, Object> described(Protocol protocol, PageWords words) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("id", protocol.id());
    map.put("title", words.text(protocol.heading().title()));
    map.put("purpose", words.text(protocol.heading().purpose()));
    map.put("ergometer", words.text(protocol.heading().ergometer()));
    map.put("youngest", protocol.eligibility().youngest());
    map.put("oldest", protocol.eligibility().oldest());
    map.put("needs", protocol.eligibility().needs());
    map.put(
        "stages", protocol.stages().stream().mapToLong(stage -> stage.lasts().toMinutes()).sum());
    map.put("longest", protocol.longest().plusSeconds(59).toMinutes());
    List<Map<String, Object>> settings = new ArrayList<>();
    for (Setting setting : protocol.settings().values()) {
      if (setting.isOpen()) {
        settings.add(setting(setting, words));
      }
    }
    map.put("settings", settings);
    map.put("cautions", protocol.heading().cautions().stream().map(words::text).toList());
    return map;
  }

  private static Map<String, Object> setting(Setting setting, PageWords words) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("name", setting.name());
    map.put("label", words.name(setting.name()));
    map.put("allowed", words.say(setting.choice()));
    if (setting.value() instanceof Setting.Figure figure) {
      map.put("value", Quantity.plain(figure.quantity().amount()));
      map.put("unit", figure.quantity().unit().symbol());
    } else {
      map.put("value", setting.value().toString());
      map.put("unit", "");
    }
    return map;
  }

  @Override
  public void close() {
    open.values().forEach(LiveTest::close);
    open.clear();
  }
}
