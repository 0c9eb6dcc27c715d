package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Times.at;
import static org.gradus.session.Times.seconds;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import java.util.Set;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.rule.answer.Gap;
import org.gradus.session.Because;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Phase;
import org.gradus.session.Reading;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.testkit.Step;

/** What holds at the end of every stage. */
class StageEndLawsTest {

  private static final Set<String> VERDICTS = Set.of("HOLD", "ADVANCE", "FINISH", "STOP");

  // Begins the test at 0:00, or ends the try for someone who is not to be tested.
  private static Session begun(Luck luck, Protocol protocol) {
    Session session = Session.open(protocol, luck.person());
    Decision ready = session.record(at("0:00"), luck.beforeTheTest());
    Assume.that(ready.verdict() instanceof Verdict.Ready);
    session.follow(ready);
    return session;
  }

  private static List<String> unconfirmed(Decision decision) {
    return decision.verdict() instanceof Verdict.Measure measure
        ? measure.gaps().stream()
            .filter(gap -> gap.cause() == Gap.Cause.UNCONFIRMED)
            .map(Gap::subject)
            .toList()
        : List.of();
  }

  @Property(tries = 400, seed = "20261130")
  void aCompleteSetOfReadingsGivesAVerdict(@ForAll Random random) {
    Luck luck = new Luck(random);
    Session session = begun(luck, luck.protocol());
    Duration start = at("0:00");
    for (int stage = 0; stage < 9 && session.phase() == Phase.STAGE; stage++) {
      Duration end = start.plus(Duration.ofMinutes(3));
      session.record(start.plus(at("1:00")), luck.rate());
      session.record(start.plus(at("2:00")), luck.rate());
      session.record(start.plus(at("2:20")), luck.cuff());
      session.record(start.plus(at("2:45")), luck.effort(), luck.gait());
      Decision decision = session.record(end, luck.chance(0.7) ? luck.steadyRate() : luck.rate());
      while (decision.verdict() instanceof Verdict.Hold hold) {
        session.follow(decision);
        end = hold.until();
        decision = session.record(end, luck.rate());
      }
      if (!(decision.verdict() instanceof Verdict.Measure)) {
        assertThat(decision.verdict().word()).isIn(VERDICTS);
      } else {
        // Complete, but for the second reading of what would end the test.
        assertThat(unconfirmed(decision)).isNotEmpty();
        assertThat(session.decide(end.plus(seconds(90))).verdict().word()).isIn(VERDICTS);
        return;
      }
      session.follow(decision);
      start = end;
    }
  }

  @Property(tries = 400, seed = "20261130")
  void oneMoreReadingNeverTurnsOneVerdictOfAStagesEndIntoAnother(@ForAll Random random) {
    Luck luck = new Luck(random);
    Protocol protocol = luck.protocol();
    List<Event.Read> all = new ArrayList<>();
    for (String time : List.of("1:00", "2:00", "3:00")) {
      all.add(read(at(time), luck.chance(0.5) ? luck.steadyRate() : luck.rate()));
    }
    all.add(read(at("2:20"), luck.cuff()));
    all.add(read(at("2:45"), luck.effort()));
    all.add(read(at("2:50"), luck.gait()));
    all.sort(Comparator.comparing(Event.Read::at));
    long seed = random.nextLong();
    List<Event.Read> fewer = all.stream().filter(event -> luck.chance(0.7)).toList();
    Decision before = atTheEnd(protocol, seed, fewer);
    Assume.that(isOfStageEnd(before, protocol));
    for (Event.Read more : all) {
      List<Event.Read> filled =
          all.stream().filter(event -> event.equals(more) || fewer.contains(event)).toList();
      Decision after = atTheEnd(protocol, seed, filled);
      if (isOfStageEnd(after, protocol)) {
        assertThat(after.verdict()).as("%s in %s", more, fewer).isEqualTo(before.verdict());
      }
    }
  }

  private static Event.Read read(Duration time, Reading reading) {
    return new Event.Read(reading.parts(), time, time);
  }

  private static Decision atTheEnd(Protocol protocol, long seed, List<Event.Read> readings) {
    Session session = begun(new Luck(new Random(seed)), protocol);
    readings.forEach(read -> new Step.Tell(read).apply(session));
    return session.decide(at("3:00"));
  }

  private static boolean isOfStageEnd(Decision decision, Protocol protocol) {
    List<String> rules = protocol.rules().stageEnd().stream().map(ProtocolRule::id).toList();
    return decision.because().map(Because::rule).filter(rules::contains).isPresent();
  }
}
