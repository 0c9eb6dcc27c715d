package org.gradus.library;

import java.util.List;
import org.gradus.diagnostic.Problems;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.RuleBook;

/**
 * What a loaded file guarantees: every stage end comes to a verdict, every test ends, ways lead
 * only forwards, rules use only what is known when they are evaluated.
 */
final class Guarantees {

  private Guarantees() {}

  /**
   * Checks it all, as far as it can be judged.
   *
   * @param measured whether what is measured exists
   */
  static void check(Draft draft, Protocol protocol, boolean measured, Problems problems) {
    new RuleLists(draft, problems).check();
    Ways ways = new Ways(draft, problems);
    ways.check();
    int before = problems.count();
    new KnownFacts(draft, protocol, problems).check(measured);
    new StageLoads(draft, protocol, ways, problems).check();
    // To evaluate a rule makes sense only when what surrounds it is as the file means it.
    boolean known = problems.count() == before;
    boolean sound = known && draft.isWhole() && isPlanned(draft, protocol) && ways.exist();
    if (measured) {
      new StageEnds(draft, protocol, ways, problems).check(sound);
    }
    if (sound) {
      new SlowedHearts(draft, protocol, problems).check();
    }
  }

  private static boolean isPlanned(Draft draft, Protocol protocol) {
    RuleBook book = protocol.rules();
    boolean rules =
        List.of(book.before(), book.anyTime(), book.recovery(), book.stageEnd(), book.result())
                    .stream()
                    .mapToInt(List::size)
                    .sum()
                + protocol.stages().stream()
                    .mapToInt(stage -> stage.ownRules().map(List<ProtocolRule>::size).orElse(0))
                    .sum()
            == draft.rules().size();
    boolean loads =
        protocol.stages().stream().mapToInt(stage -> stage.loads().size()).sum()
            == draft.stages.stream().mapToInt(stage -> stage.loads().size()).sum();
    return rules && loads;
  }
}
