package org.gradus.session;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.stream.Stream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.lifecycle.AfterContainer;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.GradusException;
import org.gradus.diagnostic.RecordRefused;
import org.gradus.protocol.Stage;
import org.gradus.testkit.Any;
import org.gradus.testkit.GrownProtocol;
import org.gradus.testkit.TestScript;
import org.gradus.unit.Quantity;

/**
 * A record is held to what a live session is held to: whatever is followed in it and was neither
 * recommended nor offered at its moment is refused by its number.
 */
class ForgedEventsTest {

  private static int refused;
  private static int taken;
  private static int changed;
  private static int amended;

  @Provide
  Arbitrary<TestScript> tests() {
    Random random = new Random(23);
    List<Arbitrary<TestScript>> tests = new ArrayList<>();
    for (int i = 0; i < 40; i++) {
      tests.add(Any.tests(GrownProtocol.of(random).protocol()));
    }
    return Arbitraries.oneOf(tests);
  }

  @Property(tries = 150, seed = "20261130")
  void whatIsFollowedWasRecommendedOrOffered(
      @ForAll("tests") TestScript test,
      @ForAll @IntRange(max = 40) int place,
      @ForAll @IntRange(max = 30) int later,
      @ForAll @IntRange(max = 11) int which) {
    List<Event> events = test.play().events();
    List<Event> before = events.subList(0, Math.min(place, events.size()));
    Session then = resume(test, before);
    Duration at = last(before).plusSeconds(later);
    Decision decision = then.decide(at);
    Verdict followed = verdict(which, test, decision, at);
    boolean possible = possible(decision).anyMatch(verdict -> isSame(verdict, followed));
    List<Event> forged = new ArrayList<>(before);
    forged.add(new Event.Followed(followed, at));
    assertIsTaken(test, forged, possible, decision);
  }

  @Property(tries = 150, seed = "20261130")
  void aFollowedVerdictCannotBeChangedAfterwards(
      @ForAll("tests") TestScript test, @ForAll @IntRange(max = 20) int which) {
    List<Event> events = test.play().events();
    List<Integer> followed = new ArrayList<>();
    for (int i = 0; i < events.size(); i++) {
      if (events.get(i) instanceof Event.Followed) {
        followed.add(i);
      }
      amended += events.get(i) instanceof Event.Amended ? 1 : 0;
    }
    if (followed.isEmpty()) {
      return;
    }
    int number = followed.get(which % followed.size());
    Event.Followed honest = (Event.Followed) events.get(number);
    for (Verdict other : others(honest.verdict(), honest.at())) {
      List<Event> forged = new ArrayList<>(events);
      forged.set(number, new Event.Followed(other, honest.at()));
      Decision decision = resume(test, events.subList(0, number)).decide(honest.at());
      boolean possible = possible(decision).anyMatch(verdict -> isSame(verdict, other));
      if (!possible) {
        assertIsTaken(test, forged.subList(0, number + 1), false, decision);
        // What comes after it does not make it right.
        assertThat(refusal(test, forged).map(Throwable::getMessage))
            .isEqualTo(refusal(test, forged.subList(0, number + 1)).map(Throwable::getMessage));
        changed++;
      }
    }
  }

  /** What a live session takes an override to be, a record is taken for. */
  @Property(tries = 150, seed = "20261130")
  void anOverrideInARecordIsOneThatALiveSessionTakes(
      @ForAll("tests") TestScript test,
      @ForAll @IntRange(max = 40) int place,
      @ForAll @IntRange(max = 11) int which) {
    List<Event> events = test.play().events();
    List<Event> before = events.subList(0, Math.min(place, events.size()));
    Session live = resume(test, before);
    Duration at = last(before).plusSeconds(which);
    Verdict wanted = verdict(which, test, live.decide(at), at);
    Optional<String> refusal = Optional.empty();
    try {
      live.override(at, wanted, which == 7 ? " " : "as I see it");
    } catch (GradusException no) {
      refusal = Optional.of(String.valueOf(no.getMessage()));
    }
    List<Event> forged = new ArrayList<>(before);
    forged.add(new Event.Overridden(wanted, which == 7 ? " " : "as I see it", at));
    Optional<RecordRefused> ofRecord = refusal(test, forged);
    assertThat(ofRecord.map(no -> no.arguments().get(2))).isEqualTo(refusal);
    assertThat(ofRecord.map(no -> no.arguments().get(0)))
        .isEqualTo(refusal.map(no -> Integer.toString(forged.size())));
  }

  private static void assertIsTaken(
      TestScript test, List<Event> forged, boolean possible, Decision decision) {
    Optional<RecordRefused> refusal = refusal(test, forged);
    assertThat(refusal.isEmpty())
        .as("%s on %s", forged.get(forged.size() - 1), decision)
        .isEqualTo(possible);
    refused += possible ? 0 : 1;
    taken += possible ? 1 : 0;
    refusal.ifPresent(
        no -> {
          assertThat(no.code()).isEqualTo(Code.G620);
          assertThat(no.arguments().get(0)).isEqualTo(Integer.toString(forged.size()));
          assertThat(no).hasMessageContaining(decision.verdict().toString());
        });
  }

  private static Optional<RecordRefused> refusal(TestScript test, List<Event> events) {
    try {
      resume(test, events);
      return Optional.empty();
    } catch (RecordRefused no) {
      return Optional.of(no);
    }
  }

  private static Session resume(TestScript test, List<Event> events) {
    return Session.resume(test.protocol(), test.person(), events, Ledger.NONE);
  }

  private static Duration last(List<Event> events) {
    return events.isEmpty() ? Duration.ZERO : events.get(events.size() - 1).at();
  }

  private static Stream<Verdict> possible(Decision decision) {
    return Stream.concat(
            Stream.of(decision.verdict()), decision.offers().stream().map(Decision.Offer::verdict))
        .filter(verdict -> !List.of("CONTINUE", "MEASURE", "OVER").contains(verdict.word()));
  }

  // Verdicts here are made from those recommended, or differ in more than texts.
  private static boolean isSame(Verdict one, Verdict other) {
    return one.equals(other)
        || (one instanceof Verdict.Ready ready
            && other instanceof Verdict.Ready begun
            && ready.stage().equals(begun.stage())
            && ready.loads().equals(begun.loads()))
        || (one.word().equals(other.word())
            && List.of("DEFER", "NOT RECOVERED").contains(one.word()))
        || (one instanceof Verdict.Stop stop
            && other instanceof Verdict.Stop stopped
            && stop.rest() == stopped.rest()
            && stop.then().equals(stopped.then()));
  }

  private static Verdict verdict(int which, TestScript test, Decision decision, Duration at) {
    List<Stage> stages = test.protocol().stages();
    String stage = stages.get(which % stages.size()).id();
    return switch (which) {
      case 0 -> new Verdict.Ready(stage, List.of());
      case 1 -> new Verdict.Defer(List.of());
      case 2 -> new Verdict.Advance(stage);
      case 3 -> new Verdict.Advance("no_such_stage");
      case 4 -> new Verdict.Hold(at.plusSeconds(60));
      case 5 -> new Verdict.Finish();
      case 6 -> new Verdict.Stop(true, "Take the load away.");
      case 7 -> new Verdict.End();
      case 8 -> new Verdict.NotRecovered(List.of());
      case 9 -> new Verdict.Continue(at);
      default -> decision.verdict();
    };
  }

  // A little beside what was followed.
  private static List<Verdict> others(Verdict followed, Duration at) {
    List<Verdict> others =
        new ArrayList<>(List.of(new Verdict.End(), new Verdict.Defer(List.of())));
    if (followed instanceof Verdict.Ready ready) {
      others.add(new Verdict.Ready(ready.stage(), heavier(ready.loads())));
      others.add(new Verdict.Ready(ready.stage() + "x", ready.loads()));
    } else if (followed instanceof Verdict.Advance advance) {
      others.add(new Verdict.Advance(advance.stage(), heavier(advance.loads())));
      others.add(new Verdict.Advance(advance.stage() + "x", advance.loads()));
      others.add(new Verdict.Finish());
    } else if (followed instanceof Verdict.Hold hold) {
      others.add(new Verdict.Hold(hold.until().plusSeconds(1)));
      others.add(new Verdict.Hold(at.plus(Duration.ofHours(20))));
    } else if (followed instanceof Verdict.Stop stop) {
      others.add(new Verdict.Stop(!stop.rest(), stop.instruction(), stop.then()));
      others.add(new Verdict.Finish(stop.then()));
    }
    return others;
  }

  private static List<Loading> heavier(List<Loading> loads) {
    List<Loading> heavier = new ArrayList<>();
    for (Loading load : loads) {
      Quantity value = load.value();
      heavier.add(
          new Loading(
              load.name(), Quantity.of(value.amount() * 1.001 + 1e-6, value.unit()), load.ramp()));
    }
    return heavier;
  }

  @AfterContainer
  static void bothHappened() {
    assertThat(refused).isPositive();
    assertThat(taken).isPositive();
    assertThat(changed).isPositive();
    assertThat(amended).isPositive();
  }
}
