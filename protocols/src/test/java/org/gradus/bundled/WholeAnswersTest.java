package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Times.at;

import java.time.Duration;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.gradus.protocol.Posture;
import org.gradus.session.Agenda;
import org.gradus.session.Decision;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.testkit.Step;
import org.gradus.unit.Kind;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/** A decision says all that a screen shows, whichever it is. */
class WholeAnswersTest {

  @Property(tries = 60, seed = "20261202")
  void everyDecisionHasItsAgendaAndSaysWhenItMayChange(@ForAll Random random) {
    Play.of(
        random,
        30,
        new Play.Watcher() {
          @Override
          public void done(Session session, Step step, Decision decision) {
            Decision now = session.decide(decision.at());
            hasNothingTwice(now.agenda());
            assertThat(now.changesAt()).isEqualTo(session.changesAt(now.at()));
            if (now.kind() == Verdict.Kind.OVER) {
              assertThat(now.agenda()).isEqualTo(Agenda.EMPTY);
            } else {
              assertThat(now.agenda().questions())
                  .isEqualTo(session.protocol().instruments().asked());
            }
          }
        });
  }

  private static void hasNothingTwice(Agenda agenda) {
    assertThat(agenda.items()).doesNotHaveDuplicates();
    assertThat(agenda.asks()).extracting(Agenda.Ask::name).doesNotHaveDuplicates();
    assertThat(agenda.questions()).doesNotHaveDuplicates();
    assertThat(agenda.cues()).doesNotHaveDuplicates();
  }

  // What a decision says of later stays so, whatever its session is told since.
  @Test
  void aDecisionKeepsWhenItMayChange() {
    Session session = Walks.walking(Walks.ines());
    Decision asked = session.decide(at("0:10"));
    Optional<Duration> then = asked.changesAt();
    session.report(at("0:20"), "chest_pain");
    assertThat(asked.changesAt()).isEqualTo(then).isPresent();
  }

  @Test
  void whatIsReadSaysSignalPostureTypeAndUnitApart() {
    Decision before = Session.open(Walks.WALK, Walks.ines()).decide(at("0:00"));
    Agenda.ToRead pulse = before.agenda().items().get(0).readings().get(0);
    assertThat(pulse.signal()).isEqualTo("heart_rate");
    assertThat(pulse.before()).contains(Posture.RESTING);
    assertThat(pulse.name()).isEqualTo("resting.heart_rate");
    assertThat(pulse.type()).isEqualTo(new Type.Measure(Kind.HEART_RATE));
    assertThat(pulse.unit()).contains(Unit.named("bpm").orElseThrow());
    assertThat(pulse.scales()).isEmpty();
    Set<String> scales = new HashSet<>();
    Walks.walking(Walks.ines())
        .decide(at("0:10"))
        .agenda()
        .items()
        .forEach(item -> item.readings().forEach(reading -> scales.addAll(reading.scales())));
    assertThat(scales).isNotEmpty().isSubsetOf(Walks.WALK.instruments().scales().keySet());
  }

  @Test
  void whatIsAskedSaysHowItIsAnswered() {
    Decision before =
        Session.open(Bundled.library().protocol("cycle-single-load-6min"), Walks.ines())
            .decide(at("0:00"));
    Agenda.Ask load =
        before.agenda().asks().stream()
            .filter(ask -> ask.type().equals(new Type.Measure(Kind.POWER)))
            .findFirst()
            .orElseThrow();
    assertThat(load.unit().map(Unit::kind)).contains(Kind.POWER);
    assertThat(load.range().isPresent() || !load.options().isEmpty()).isTrue();
    assertThat(before.agenda().asks())
        .filteredOn(ask -> ask.type().equals(Type.CONDITION))
        .isNotEmpty()
        .allSatisfy(ask -> assertThat(ask.unit()).isEmpty());
  }

  // An overview of the kinds that a walk can come to, so that none is without its agenda.
  @Test
  void aStopAHoldAndAnAdvanceSayWhatIsDueToo() {
    Set<Verdict.Kind> seen = EnumSet.noneOf(Verdict.Kind.class);
    Session steady = Walks.walking(Walks.ines(), 110, 112);
    Session rising = Walks.walking(Walks.ines(), 100, 112);
    for (Decision decision :
        new Decision[] {
          steady.decide(at("3:00")),
          rising.decide(at("3:00")),
          steady.report(at("3:00"), "chest_pain")
        }) {
      seen.add(decision.kind());
      assertThat(decision.agenda().load()).isNotEmpty();
      assertThat(decision.agenda().items()).isNotEmpty();
    }
    assertThat(seen).contains(Verdict.Kind.HOLD, Verdict.Kind.STOP);
  }
}
