package org.gradus.session;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.lifecycle.AfterContainer;
import org.gradus.testkit.Any;
import org.gradus.testkit.GrownProtocol;
import org.gradus.testkit.TestScript;

/** What is told again in one pass is what is told again from the start for each event. */
class RetoldTest {

  private static int putRight;
  private static int overridden;

  @Provide
  Arbitrary<TestScript> tests() {
    Random random = new Random(17);
    List<Arbitrary<TestScript>> tests = new ArrayList<>();
    for (int i = 0; i < 40; i++) {
      tests.add(Any.tests(GrownProtocol.of(random).protocol()));
    }
    return Arbitraries.oneOf(tests);
  }

  @Property(tries = 200, seed = "20261130")
  void onePassIsAsGoodAsOneForEachEvent(@ForAll("tests") TestScript test) {
    List<Event> events = test.play().events();
    List<Retold> retold = Retold.of(test.protocol(), test.person(), events);
    assertThat(retold).extracting(Retold::event).isEqualTo(events);
    for (int i = 0; i < events.size(); i++) {
      Event event = events.get(i);
      assertThat(retold.get(i).number()).isEqualTo(i + 1);
      assertThat(retold.get(i).before()).isEqualTo(upTo(i, test, events).decide(event.at()));
      assertThat(retold.get(i).answer()).isEqualTo(upTo(i + 1, test, events).decide(event.at()));
      putRight += event instanceof Event.Amended || event instanceof Event.Rejected ? 1 : 0;
      overridden += event instanceof Event.Overridden ? 1 : 0;
    }
  }

  private static Session upTo(int count, TestScript test, List<Event> events) {
    return Session.resume(test.protocol(), test.person(), events.subList(0, count), Ledger.NONE);
  }

  @AfterContainer
  static void whatIsHardWasAmongThem() {
    assertThat(putRight).isPositive();
    assertThat(overridden).isPositive();
  }
}
