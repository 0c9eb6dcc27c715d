package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.gradus.cases.Coverage;
import org.gradus.library.Library;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** Every bundled protocol does what its cases say, and they leave no rule and no stage unseen. */
class BundledCasesTest {

  private static final Library LIBRARY = Bundled.library();

  // A whole test, a branch, a hold or what stands for it, a stop, a missing reading, an edge.
  private static final int FEWEST = 6;

  @TestFactory
  List<DynamicTest> everyCaseGoesAsItSays() {
    return LIBRARY.protocols().stream()
        .map(id -> DynamicTest.dynamicTest(id, () -> goes(id)))
        .toList();
  }

  private static void goes(String id) {
    Playbook playbook = Playbook.of(LIBRARY, id);
    assertThat(playbook.own()).as("cases of its own").hasSizeGreaterThanOrEqualTo(FEWEST);
    assertThat(playbook.failures(LIBRARY)).isEmpty();
    Coverage coverage = playbook.coverage(LIBRARY).orElseThrow();
    assertThat(coverage.neverFired()).as("rules that no case shows").isEmpty();
    assertThat(coverage.neverReached()).as("stages that no case reaches").isEmpty();
  }

  @Test
  void everyCaseOfARuleSetIsShownByAProtocol() {
    Map<String, Boolean> shown = new TreeMap<>();
    for (String id : LIBRARY.protocols()) {
      Playbook.of(LIBRARY, id)
          .ofSets()
          .forEach((name, runs) -> shown.merge(name, runs, Boolean::logicalOr));
    }
    assertThat(shown).isNotEmpty().doesNotContainValue(false);
  }
}
