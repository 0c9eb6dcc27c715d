package org.gradus.examples.workbench;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.Callable;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.gradus.history.TestRecord;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.session.Phase;
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
      "Runs a test at the terminal, with a clock. Type ? for what can be typed.",
      "A line may begin with a time such as 3:00, to which the clock then jumps."
    })
final class RunCommand implements Callable<Integer> {

  private static final String END = "\u0004";

  @Mixin private Shelf shelf = new Shelf();

  @Parameters(paramLabel = "ID", description = "The protocol.")
  private String id = "";

  @Option(names = "--age", required = true, paramLabel = "YEARS", description = "Completed years.")
  private int age;

  @Option(names = "--sex", required = true, paramLabel = "SEX", description = "female or male.")
  private Sex sex = Sex.female;

  @Option(names = "--mass", required = true, paramLabel = "KG", description = "Body mass in kg.")
  private double mass;

  @Option(names = "--height", paramLabel = "CM", description = "Body height in cm.")
  private double height;

  @Option(names = "--cleared", description = "The person has been cleared by your own procedure.")
  private boolean cleared;

  @Option(names = "--slowed", description = "A medicine slows the person's heart.")
  private boolean slowed;

  @Option(
      names = "--speed",
      paramLabel = "N",
      description = "How many times faster than real time the clock runs (default: 1).")
  private double speed = 1;

  @Option(
      names = "--record",
      paramLabel = "FILE",
      description = "Write the record here at the end.")
  private @Nullable Path record;

  /** As it is typed. */
  enum Sex {
    /** Female. */
    female,
    /** Male. */
    male
  }

  @Override
  public Integer call() {
    Protocol protocol = shelf.protocol(id);
    Person.Builder person =
        Person.builder()
            .age(age)
            .sex(sex == Sex.female ? Person.Sex.FEMALE : Person.Sex.MALE)
            .mass(Quantity.of(mass, Unit.KILOGRAM))
            .cleared(cleared)
            .lowersHeartRate(slowed);
    if (height > 0) {
      person.height(Quantity.of(height, Unit.CENTIMETRE));
    }
    Session session = Session.open(protocol, person.build());
    shelf.out().println("Gradus advises; you decide. Have your emergency plan ready. ? for help.");
    LiveTest live = new LiveTest(session, shelf, new StageClock(speed));
    BlockingQueue<String> typed = reader();
    live.announce();
    while (session.phase() != Phase.ENDED) {
      Optional<String> line = next(typed);
      if (line.filter(END::equals).isPresent()) {
        break;
      }
      line.ifPresentOrElse(live::typed, live::tick);
      if (live.isLeft()) {
        break;
      }
    }
    live.result();
    save(session);
    return Workbench.WELL;
  }

  // Reading blocks, and the clock must go on.
  private static BlockingQueue<String> reader() {
    BlockingQueue<String> typed = new LinkedBlockingQueue<>();
    Thread thread =
        new Thread(
            () -> {
              try (BufferedReader in =
                  new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8))) {
                in.lines().forEach(typed::add);
              } catch (IOException | UncheckedIOException e) {
                // The terminal is gone; the test is over.
              } finally {
                typed.add(END);
              }
            },
            "terminal");
    thread.setDaemon(true);
    thread.start();
    return typed;
  }

  private static Optional<String> next(BlockingQueue<String> typed) {
    try {
      return Optional.ofNullable(typed.poll(1, TimeUnit.SECONDS));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return Optional.of(END);
    }
  }

  private void save(Session session) {
    if (record != null) {
      try {
        Files.writeString(record, TestRecord.of(session, Optional.empty()).text());
        shelf.out().println("record: " + record);
      } catch (IOException e) {
        throw new UncheckedIOException("cannot write " + record, e);
      }
    }
  }

  /** The time of the test: real, faster, or as it is typed. */
  static final class StageClock {
    private final double speed;
    private final long start = System.nanoTime();
    private Duration ahead = Duration.ZERO;

    StageClock(double speed) {
      this.speed = speed;
    }

    Duration now() {
      long seconds = (long) ((System.nanoTime() - start) / 1e9 * speed);
      return Duration.ofSeconds(seconds).plus(ahead);
    }

    /** Jumps ahead; a time that has passed already is where the clock stands. */
    Duration jump(Duration to) {
      Duration now = now();
      if (to.compareTo(now) > 0) {
        ahead = ahead.plus(to.minus(now));
      }
      return now();
    }
  }
}
