package org.gradus.session;

import java.util.List;
import java.util.stream.Stream;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.VerdictRefused;
import org.gradus.words.Message;

/**
 * What a tester can follow at a moment: the recommended verdict, or one that is offered beside it.
 * A live session and the replay of a record use the same check.
 */
final class Following {

  private final Decision decision;

  /** What can be followed of a decision. */
  Following(Decision decision) {
    this.decision = decision;
  }

  /** Whether following a verdict does something. A record holds only verdicts that do. */
  static boolean doesSomething(Verdict verdict) {
    return switch (verdict.kind()) {
      case CONTINUE, MEASURE, OVER -> false;
      case READY, DEFER, HOLD, CHANGE, ADVANCE, FINISH, STOP, END, NOT_RECOVERED -> true;
    };
  }

  /** A verdict as it is recorded: without reasons. */
  static Verdict recorded(Verdict verdict) {
    return switch (verdict.kind()) {
      case DEFER -> new Verdict.Defer(List.of());
      case READY,
          CONTINUE,
          MEASURE,
          HOLD,
          CHANGE,
          ADVANCE,
          FINISH,
          STOP,
          END,
          NOT_RECOVERED,
          OVER ->
          verdict;
    };
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
          Message.of(SessionMessage.TO_FOLLOW, followed.message()),
          Message.of(SessionMessage.AT, Times.clock(decision.at())),
          recommended());
    }
  }

  private Message recommended() {
    List<Message> offers =
        decision.offers().stream().map(offer -> offer.verdict().message()).toList();
    return offers.isEmpty()
        ? Message.of(SessionMessage.RECOMMENDED_IS, decision.said())
        : Message.of(SessionMessage.RECOMMENDED_AND_OFFERED, decision.said(), offers);
  }

  // Texts may be reworded, and the last digit of a computed load may differ between machines.
  private static boolean doTheSame(Verdict one, Verdict other) {
    return withoutLoadsAndTexts(one).equals(withoutLoadsAndTexts(other))
        && Loading.areSame(one.loads(), other.loads());
  }

  private static Verdict withoutLoadsAndTexts(Verdict verdict) {
    return switch (verdict.kind()) {
      case READY -> new Verdict.Ready(((Verdict.Ready) verdict).stage(), List.of());
      case DEFER -> new Verdict.Defer(List.of());
      case CHANGE -> new Verdict.Change(((Verdict.Change) verdict).stage(), List.of());
      case ADVANCE -> new Verdict.Advance(((Verdict.Advance) verdict).stage());
      case FINISH -> new Verdict.Finish();
      case STOP -> new Verdict.Stop(((Verdict.Stop) verdict).rest(), "");
      case NOT_RECOVERED -> new Verdict.NotRecovered(List.of());
      case CONTINUE, MEASURE, HOLD, END, OVER -> verdict;
    };
  }
}
