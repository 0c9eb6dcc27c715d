package org.gradus.session;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.lifecycle.AfterContainer;
import org.gradus.rule.bounds.Settled;
import org.gradus.rule.plan.Frame;
import org.gradus.testkit.Any;
import org.gradus.testkit.GrownProtocol;
import org.gradus.testkit.TestScript;

/** What is kept at hand of a moment shows what looking everything up would show. */
class AtHandTest {

  private static int kept;

  private static final List<GrownProtocol> PROTOCOLS = protocols();

  private static List<GrownProtocol> protocols() {
    Random random = new Random(11);
    List<GrownProtocol> grown = new ArrayList<>();
    for (int i = 0; i < 60; i++) {
      grown.add(GrownProtocol.of(random));
    }
    return grown;
  }

  @Provide
  Arbitrary<TestScript> tests() {
    return Arbitraries.oneOf(PROTOCOLS.stream().map(grown -> Any.tests(grown.protocol())).toList());
  }

  @Property(tries = 800, seed = "20261130")
  void whatIsTakenOverIsWhatWouldBeLookedUp(@ForAll("tests") TestScript test) {
    Course course = Course.begin(test.protocol(), test.person());
    for (Event event : test.play().events()) {
      course = Intake.apply(course, event).course();
      Optional<Frame> atHand = course.shown(); // held on to, so that it stays
      kept += atHand.isPresent() ? 1 : 0;
      for (int later : new int[] {0, 1, 29, 75}) {
        Duration time = course.now.plusSeconds(later);
        Frame bare = Sight.latest(forgetful(course), time);
        if (course.phase != Phase.ENDED) {
          same(bare, Moment.of(course, time).latest(), event + ", " + later + " s later");
          same(bare, Sight.latest(course, time), "all but answers");
          assertThat(Judge.decide(course, time))
              .as("%s, %d s later", event, later)
              .isEqualTo(Judge.decide(forgetful(course), time));
        }
      }
      for (Passage stage : course.passages) {
        Frame bare = Sight.atDue(forgetful(course), stage, stage.endInStage());
        same(bare, Sight.atDue(course, stage, stage.endInStage()), "the end of a stage");
      }
      assertThat(atHand).isEqualTo(course.shown());
    }
  }

  @AfterContainer
  static void somethingWasAtHand() {
    assertThat(kept).isPositive();
  }

  // The same course with nothing at hand, and nothing found out about what is settled.
  private static Course forgetful(Course course) {
    return course.with(change -> change.settled = Settled.NOTHING);
  }

  private static void same(Frame expected, Frame found, String when) {
    for (int slot = 0; slot < expected.layout().size(); slot++) {
      assertThat(shown(found, slot))
          .as(expected.layout().demands().get(slot) + " after " + when)
          .isEqualTo(shown(expected, slot));
    }
  }

  private static List<Object> shown(Frame frame, int slot) {
    return List.of(frame.value(slot), frame.halfWidth(slot), frame.taken(slot), frame.gap(slot));
  }
}
