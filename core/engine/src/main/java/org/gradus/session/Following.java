package org.gradus.session;

import java.util.List;
import java.util.stream.Stream;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.VerdictRefused;

/**
 * What a tester can follow at a moment: the verdict that is recommended, or one of those offered
 * beside it. A live session and a record that is replayed are held to the same.
 */
final class Following {

  private final Decision decision;

  /** What can be followed of a decision. */
  Following(Decision decision) {
    this.decision = decision;
  }

  /** Whether following a verdict does something. One that does not is no part of a record. */
  static boolean doesSomething(Verdict verdict) {
    return !(verdict instanceof Verdict.Continue
        || verdict instanceof Verdict.Measure
        || verdict instanceof Verdict.Over);
  }

  /** A verdict as it is recorded: without what only informs. */
  static Verdict recorded(Verdict verdict) {
    if (verdict instanceof Verdict.Defer) {
      return new Verdict.Defer(List.of());
    }
    return verdict instanceof Verdict.Ready ready
        ? new Verdict.Ready(ready.stage(), ready.loads())
        : verdict;
  }

  /**
   * Refuses to follow what is neither recommended nor offered.
   *
   * @throws VerdictRefused that says what is recommended instead
   */
  void refuseUnlessPossible(Verdict followed) {
    boolean possible =
        Stream.concat(
                Stream.of(decision.verdict()),
                decision.offers().stream().map(Decision.Offer::verdict))
            .anyMatch(verdict -> doesSomething(verdict) && doTheSame(verdict, followed));
    if (!possible) {
      throw new VerdictRefused(
          Code.G602,
          "to follow " + followed,
          "at " + Times.clock(decision.at()),
          "recommended then is " + decision.said() + offered());
    }
  }

  private String offered() {
    List<String> offers =
        decision.offers().stream().map(offer -> offer.verdict().toString()).toList();
    return offers.isEmpty() ? "" : ", offered " + String.join(", ", offers);
  }

  // Texts may be worded anew, and the last digit of a load that is worked out may differ from one
  // machine to another.
  private static boolean doTheSame(Verdict one, Verdict other) {
    return withoutLoadsAndTexts(one).equals(withoutLoadsAndTexts(other))
        && Loading.areSame(one.loads(), other.loads());
  }

  private static Verdict withoutLoadsAndTexts(Verdict verdict) {
    if (verdict instanceof Verdict.Ready ready) {
      return new Verdict.Ready(ready.stage(), List.of());
    } else if (verdict instanceof Verdict.Advance advance) {
      return new Verdict.Advance(advance.stage());
    } else if (verdict instanceof Verdict.Finish) {
      return new Verdict.Finish();
    } else if (verdict instanceof Verdict.Stop stop) {
      return new Verdict.Stop(stop.rest(), "");
    } else if (verdict instanceof Verdict.Defer) {
      return new Verdict.Defer(List.of());
    } else if (verdict instanceof Verdict.NotRecovered) {
      return new Verdict.NotRecovered(List.of());
    }
    return verdict;
  }
}
