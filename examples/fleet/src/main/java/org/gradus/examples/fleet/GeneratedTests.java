package org.gradus.examples.fleet;

import static org.gradus.session.Readings.answer;
import static org.gradus.session.Readings.measured;
import static org.gradus.session.Readings.rating;
import static org.gradus.unit.Quantities.kg;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.SplittableRandom;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Sign;
import org.gradus.session.Agenda;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Phase;
import org.gradus.session.Reading;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;

/**
 * Tests of invented people, with a tester who reads what is due and follows what is recommended,
 * for the most part. The same seed gives the same tests.
 *
 * @param seed from which everything is drawn
 * @param tests how many
 * @param protocols the ids of the protocols, used in turn
 * @param longest how many messages a test has at most; one that is cut off is never ended
 * @param begun when the first test is opened, in milliseconds since 1970
 */
record GeneratedTests(long seed, int tests, List<String> protocols, int longest, long begun) {

  private static final long GOLDEN = 0x9E3779B97F4A7C15L;
  private static final int APART = 400;

  /** What a test room sends about one test, in order. */
  List<RoomMessage> messages(int test, Library library) {
    return new Room(test, library).play();
  }

  /** What the rooms of one region send, in the order of time; each region has every nth test. */
  List<RoomMessage> region(int region, int regions, Library library) {
    List<RoomMessage> messages = new ArrayList<>();
    for (int test = region; test < tests; test += regions) {
      messages.addAll(messages(test, library));
    }
    // Sorting is stable: the messages of a test stay in order.
    messages.sort(Comparator.comparingLong(RoomMessage::time));
    return messages;
  }

  private final class Room {

    private final SplittableRandom random;
    private final String id;
    private final long opened;
    private final Protocol protocol;
    private final Person person;
    private final Session session;
    private final List<RoomMessage> sent = new ArrayList<>();
    private final double rest;
    private final double rise;
    private Duration now = Duration.ZERO;

    Room(int test, Library library) {
      random = new SplittableRandom(seed + GOLDEN * (test + 1L));
      id = "test-" + test;
      opened = begun + (long) test * APART;
      protocol = library.protocol(protocols.get(test % protocols.size()));
      rest = random.nextInt(58, 80);
      rise = random.nextInt(9, 19);
      person =
          Person.builder()
              .age(random.nextInt(20, 64))
              .sex(random.nextBoolean() ? Person.Sex.FEMALE : Person.Sex.MALE)
              .mass(kg(random.nextInt(55, 95)))
              .cleared(true)
              .lowersHeartRate(false)
              .build();
      session = Session.open(protocol, person);
    }

    List<RoomMessage> play() {
      sent.add(RoomMessage.open(id, opened, protocol.id(), person));
      before();
      while (session.phase() != Phase.ENDED && sent.size() < longest) {
        step(session.decide(now));
      }
      return sent;
    }

    private void before() {
      Agenda agenda = session.decide(now).agenda();
      List<Reading> known = new ArrayList<>();
      for (Agenda.Ask ask : agenda.asks()) {
        if (ask.type() instanceof Type.Condition) {
          known.add(answer(ask.name(), random.nextInt(60) == 0));
        }
      }
      for (Agenda.Item item : agenda.items()) {
        known.addAll(readings(item));
      }
      if (!known.isEmpty()) {
        tell(new Event.Read(known, now, now));
      }
    }

    private void step(Decision decision) {
      boolean waits =
          decision.kind() == Verdict.Kind.CONTINUE || decision.kind() == Verdict.Kind.MEASURE;
      Optional<Agenda.Item> item =
          waits
              ? decision.agenda().items().stream().filter(Room::isToCome).findFirst()
              : Optional.empty();
      if (!waits) {
        act(decision);
      } else if (random.nextInt(250) == 0) {
        sign();
      } else if (item.isPresent()) {
        now = later(item.get().due());
        List<Reading> readings = readings(item.get());
        // One reading in thirty is forgotten.
        if (random.nextInt(30) > 0 && !readings.isEmpty()) {
          tell(new Event.Read(readings, now, now));
        } else {
          now = now.plusSeconds(20);
        }
      } else {
        Duration soon = now.plusSeconds(20);
        now = decision.changesAt().filter(change -> change.compareTo(now) > 0).orElse(soon);
      }
    }

    private static boolean isToCome(Agenda.Item item) {
      return item.state() != Agenda.State.MISSED;
    }

    private Duration later(Duration due) {
      return due.compareTo(now) > 0 ? due : now.plusSeconds(1);
    }

    private void act(Decision decision) {
      now = decision.at().plusSeconds(random.nextInt(1, 4));
      Decision current = session.decide(now);
      if (current.kind() == Verdict.Kind.DEFER || random.nextInt(400) == 0) {
        tell(new Event.Abandoned("another day", now));
      } else {
        tell(new Event.Followed(current.verdict(), now));
      }
    }

    private void sign() {
      List<Sign> signs =
          protocol.instruments().signs().values().stream()
              .filter(sign -> sign.top().isEmpty())
              .toList();
      now = now.plusSeconds(2);
      String name = signs.get(random.nextInt(signs.size())).name();
      tell(new Event.Reported(name, OptionalInt.empty(), now));
    }

    // Only what the session takes is sent.
    private void tell(Event event) {
      int before = session.events().size();
      session.tell(event);
      if (session.events().size() > before) {
        sent.add(RoomMessage.tell(id, opened, event));
      }
    }

    private List<Reading> readings(Agenda.Item item) {
      List<Reading> readings = new ArrayList<>();
      for (Agenda.ToRead what : item.readings()) {
        value(what)
            .map(
                read ->
                    what.before()
                        .<Reading>map(before -> new Reading.Baseline(before, read))
                        .orElse(read))
            .ifPresent(readings::add);
      }
      return readings;
    }

    private Optional<Reading> value(Agenda.ToRead what) {
      double effort = session.phase() == Phase.STAGE ? now.toSeconds() / 180.0 : 0;
      return switch (what.signal()) {
        case "heart_rate" ->
            Optional.of(amount(what, rest + rise * effort + random.nextInt(-2, 3)));
        case "systolic" -> Optional.of(amount(what, 2 * Math.rint(60 + 4 * effort)));
        case "diastolic" -> Optional.of(amount(what, 78));
        default ->
            what.scales().isEmpty()
                ? Optional.empty()
                : Optional.of(rating(Math.rint(Math.min(10, 7 + effort)), what.scales().get(0)));
      };
    }

    private Reading amount(Agenda.ToRead what, double value) {
      Unit unit = what.unit().orElseThrow();
      return measured(what.signal(), Quantity.of(Math.rint(value), unit));
    }
  }
}
