package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.pulse;
import static org.gradus.session.Readings.resting;
import static org.gradus.session.Times.at;
import static org.gradus.session.Times.seconds;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.EventConflict;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.protocol.Person;
import org.gradus.session.Admission;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Ledger;
import org.gradus.session.Phase;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.testkit.Step;
import org.junit.jupiter.api.Test;

/** A host that does not know whether an event arrived tells it again, with its number. */
class ToldTwiceTest {

  private static final Person PERSON = Walked.person(46, Person.Sex.FEMALE, 71).build();

  private final Session session = Walks.begun(Ledger.NONE);

  @Test
  void aRepeatedEventIsAnsweredAndNotRecordedTwice() {
    int next = session.events().size() + 1;
    Decision first = session.asEvent(next).record(at("2:00"), pulse(26, seconds(15)));
    Decision again = session.asEvent(next).record(at("2:00"), pulse(26, seconds(15)));
    assertThat(again).isEqualTo(first);
    assertThat(session.events()).hasSize(next);
  }

  @Test
  void soIsWhatWasDone() {
    Decision stop = session.report(at("1:00"), "chest_pain");
    int next = stop.event() + 1;
    Decision done = session.asEvent(next).follow(stop);
    assertThat(done.phase()).isEqualTo(Phase.RECOVERY);
    assertThat(session.asEvent(next).follow(stop)).isEqualTo(done);
    Event.Followed stored = (Event.Followed) session.events().get(next - 1);
    assertThat(session.asEvent(next).tell(stored)).isEqualTo(done);
    assertThat(session.events()).hasSize(next);
  }

  @Test
  void anotherEventUnderItsNumberAndAGapAreRefused() {
    int next = session.events().size() + 1;
    session.asEvent(next).record(at("2:00"), heartRate(104));
    assertThatThrownBy(() -> session.asEvent(next).record(at("2:00"), heartRate(105)))
        .isInstanceOf(EventConflict.class)
        .hasMessageContaining("event " + next)
        .hasMessageContaining("READ");
    for (int number : List.of(-1, 0, next + 2, Integer.MAX_VALUE)) {
      assertThatThrownBy(() -> session.asEvent(number).record(at("2:10"), heartRate(105)))
          .isInstanceOf(EventConflict.class)
          .hasMessageContaining("the next one is event " + (next + 1));
    }
    assertThat(session.events()).hasSize(next);
  }

  @Test
  void whatWasRefusedIsRefusedAgainAndItsNumberStaysFree() {
    int next = session.events().size() + 1;
    for (int i = 0; i < 2; i++) {
      assertThat(session.asEvent(next).admit(at("2:00"), heartRate(700)))
          .isInstanceOfSatisfying(
              Admission.Refused.class,
              refused -> assertThat(refused.why().code()).isEqualTo(Code.G502));
    }
    assertThat(session.asEvent(next).admit(at("2:00"), heartRate(104)))
        .isInstanceOf(Admission.Admitted.class);
  }

  // Whatever happened in a test: each event told again under its number is answered as it was.
  @Property(tries = 30, seed = "20261201")
  void everyEventOfATestCanBeToldAgain(@ForAll Random random) {
    Play.of(
        random,
        25,
        new Play.Watcher() {
          @Override
          public void done(Session played, Step step, Decision decision) {
            if (played.events().size() < 20) {
              return;
            }
            List<Decision> answers = new ArrayList<>();
            Session.retell(
                played.protocol(),
                played.outcome().person(),
                played.events(),
                (number, event, answer) -> answers.add(answer));
            List<Event> events = played.events();
            Session again =
                Session.resume(played.protocol(), played.outcome().person(), events, Ledger.NONE);
            for (int number : List.of(1, events.size() / 2, events.size())) {
              assertThat(again.asEvent(number).tell(events.get(number - 1)))
                  .isEqualTo(answers.get(number - 1));
            }
            assertThat(again.events()).isEqualTo(events);
          }
        });
  }

  @Test
  void everythingThatIsDoneIsAnswered() {
    Session before = Session.open(Walks.WALK, PERSON);
    Decision begun = before.override(at("0:00"), new Verdict.Ready("walk_1", List.of()), "asked");
    assertThat(begun).isEqualTo(before.decide(at("0:00")));
    assertThat(begun.verdict()).isInstanceOf(Verdict.Continue.class);
    assertThat(before.follow(begun)).isEqualTo(begun);
    Decision over = before.abandon(at("0:30"), "fire alarm");
    assertThat(over.verdict()).isInstanceOf(Verdict.Over.class);
    assertThat(over).isEqualTo(before.decide(at("0:30")));
  }

  @Test
  void anEventThatWasReceivedIsToldAsItIs() {
    Session other = Session.open(Walks.WALK, PERSON);
    Decision told =
        other.tell(new Event.Read(List.of(resting(pressure(122, 78))), at("0:00"), at("0:00")));
    assertThat(told)
        .isEqualTo(Session.open(Walks.WALK, PERSON).record(at("0:00"), resting(pressure(122, 78))));
    assertThatThrownBy(
            () ->
                other.tell(
                    new Event.Reported("no_sign", java.util.OptionalInt.empty(), at("0:01"))))
        .isInstanceOf(ReadingRefused.class);
  }
}
