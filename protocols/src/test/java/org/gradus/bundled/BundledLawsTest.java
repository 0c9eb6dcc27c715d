package org.gradus.bundled;

import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.gradus.library.Library;
import org.gradus.protocol.Protocol;
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

  @Property(tries = 1_600)
  void everyTestByEveryProtocolKeepsTheLaws(@ForAll("tests") TestScript test) {
    Laws.all().without(Laws.A_RECORD_GIVES_THE_TEST_BACK).check(test);
  }

  @Property(tries = 200)
  void aRecordIsTheWholeTest(@ForAll("tests") TestScript test) {
    Laws.of(Laws.A_RECORD_GIVES_THE_TEST_BACK, Laws.aRecordMatchesItsFiles(LIBRARY)).check(test);
  }
}
