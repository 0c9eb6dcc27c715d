package org.gradus.library;

import org.gradus.diagnostic.Problems;
import org.gradus.protocol.Protocol;

/**
 * What a loaded file guarantees: every stage end comes to a verdict, every test ends, ways lead
 * only forwards, rules look only at what is known where they are looked at.
 */
final class Guarantees {

  private Guarantees() {}

  static void check(Draft draft, Protocol protocol, Problems problems) {
    int before = problems.count();
    new RuleLists(draft, problems).check();
    new Ways(draft, problems).check();
    // What follows evaluates rules, which makes sense only when all of them could be planned.
    if (problems.count() == before && protocol.rules().stageEnd().size() == draft.stageEnd.size()) {
      new Totality(draft, protocol, problems).check();
    }
  }
}
