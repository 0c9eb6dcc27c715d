package org.gradus.examples.workbench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.time.temporal.ChronoUnit;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.JournalFailed;
import org.gradus.history.Journal;
import org.gradus.history.Title;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.session.Session;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Runs a test at the terminal. */
@Command(
    name = "run",
    description = {
      "Runs a test at the terminal, with a clock. Type ? to see what you can type.",
      "A line may begin with a time of the test, such as 3:00."
    })
final class RunCommand implements Callable<Integer> {

  @Mixin private CommandContext context = new CommandContext();

  @Mixin private Settings settings = new Settings();

  @Parameters(paramLabel = "ID", description = "The protocol.")
  private String id = "";

  @Option(names = "--age", required = true, paramLabel = "YEARS", description = "Completed years.")
  private int age;

  @Option(names = "--sex", required = true, paramLabel = "SEX", description = "female or male.")
  private Sex sex = Sex.female;

  @Option(names = "--mass", required = true, paramLabel = "KG", description = "Body mass in kg.")
  private double mass;

  @Option(names = "--height", paramLabel = "CM", description = "Body height in cm.")
  private @Nullable Double height;

  @Option(names = "--cleared", description = "The person has been cleared by your own procedure.")
  private boolean cleared;

  @Option(names = "--slowed", description = "The person takes medication that lowers heart rate.")
  private boolean slowed;

  @Mixin private Pace pace = new Pace();

  @Option(
      names = "--record",
      paramLabel = "FILE",
      description = "Keep the record in this new file, event by event.")
  private @Nullable Path record;

  @Option(
      names = "--identity",
      paramLabel = "WORDS",
      description = "Whose test it is, by your own words; it stands in the record and its report.")
  private @Nullable String identity;

  /** As it is typed. */
  enum Sex {
    /** Female. */
    female,
    /** Male. */
    male
  }

  @Override
  public Integer call() {
    context.refuseUnless(isSize(mass), "--mass " + mass + ": give kilograms, a number above 0");
    context.refuseUnless(
        height == null || isSize(height),
        "--height " + height + ": give centimetres, a number above 0");
    context.refuseUnless(
        identity == null || record != null,
        "--identity: it stands in the record; give --record FILE too");
    Protocol protocol = settings.in(context.protocol(id));
    Person.Builder person =
        Person.builder()
            .age(age)
            .sex(sex == Sex.female ? Person.Sex.FEMALE : Person.Sex.MALE)
            .mass(Quantity.of(mass, Unit.KILOGRAM))
            .cleared(cleared)
            .lowersHeartRate(slowed);
    if (height != null) {
      person.height(Quantity.of(height, Unit.CENTIMETRE));
    }
    Person tested = person.build();
    LiveLoop loop = new LiveLoop(context, pace.speed());
    if (record == null) {
      return loop.run(Session.open(protocol, tested), Duration.ZERO, Optional.empty());
    }
    if (Files.isDirectory(record)) {
      throw CommandContext.cannot("write", record, new IOException("a folder"));
    }
    Title title =
        Title.of(protocol, tested, Optional.ofNullable(identity))
            .begun(ZonedDateTime.now(ZoneId.systemDefault()).truncatedTo(ChronoUnit.SECONDS));
    try (Journal journal = Journal.create(record, title)) {
      Session session = Session.open(protocol, tested, journal);
      int code = loop.run(session, Duration.ZERO, Optional.of(record));
      context.line("record: " + record);
      return code;
    } catch (JournalFailed failed) {
      context.complain(String.valueOf(failed.getMessage()));
      if (failed.code() == Code.G614) {
        context.complain("to go on with the test recorded there: workbench resume " + record);
      }
      return Workbench.REFUSED;
    }
  }

  private static boolean isSize(double size) {
    return size > 0 && Double.isFinite(size);
  }
}
