package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.RandomGenerator;
import org.gradus.library.Library;
import org.gradus.protocol.Protocol;
import org.gradus.session.Outcome;
import org.gradus.session.Phase;
import org.gradus.testkit.Any;
import org.gradus.testkit.Laws;
import org.gradus.testkit.TestScript;

/** What holds in every test by every bundled protocol, however it goes. */
class BundledLawsTest {

  private static final Library LIBRARY = Bundled.library();
  private static final List<Protocol> PROTOCOLS =
      LIBRARY.protocols().stream().map(LIBRARY::protocol).toList();

  @Provide
  Arbitrary<TestScript> tests() {
    return Arbitraries.oneOf(PROTOCOLS.stream().map(Any::tests).toList());
  }

  @Property(tries = 600, seed = "20261130")
  void everyTestByEveryProtocolKeepsTheLaws(@ForAll("tests") TestScript test) {
    Laws.all().without(Laws.A_RECORD_GIVES_THE_TEST_BACK).check(test);
  }

  @Property(tries = 100, seed = "20261130")
  void aRecordIsTheWholeTest(@ForAll("tests") TestScript test) {
    Laws.of(Laws.A_RECORD_GIVES_THE_TEST_BACK, Laws.aRecordMatchesItsFiles(LIBRARY)).check(test);
  }

  // Laws say nothing about what no test gets to.
  @Property(seed = "20261130")
  void testsByEveryProtocolGetSomewhere(@ForAll("protocols") Protocol protocol) {
    RandomGenerator<TestScript> tests = Any.tests(protocol).generator(1000);
    Random random = new Random(7);
    Set<String> stages = new HashSet<>();
    boolean ended = false;
    int several = Math.min(2, protocol.stages().size());
    for (int i = 0; i < 300 && !(ended && stages.size() >= several); i++) {
      Outcome outcome = tests.next(random).value().play().outcome();
      ended |= outcome.phase() == Phase.ENDED && !outcome.stages().isEmpty();
      outcome.stages().forEach(stage -> stages.add(stage.id()));
    }
    assertThat(stages).as("%s", protocol).hasSizeGreaterThanOrEqualTo(several);
    assertThat(ended).as("%s", protocol).isTrue();
  }

  @Provide
  Arbitrary<Protocol> protocols() {
    return Arbitraries.of(PROTOCOLS);
  }
}
