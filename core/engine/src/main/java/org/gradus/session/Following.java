package org.gradus.session;

import java.util.List;
import java.util.stream.Stream;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.VerdictRefused;

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
      case READY, DEFER, HOLD, ADVANCE, FINISH, STOP, END, NOT_RECOVERED -> true;
    };
  }

  /** A verdict as it is recorded: without agenda and reasons. */
  static Verdict recorded(Verdict verdict) {
    return verdict.accept(new WithoutInformation());
  }

  /** What is left of a verdict that is recorded. */
  private static class WithoutInformation implements Verdict.Visitor<Verdict> {
    @Override
    public Verdict ready(Verdict.Ready ready) {
      return new Verdict.Ready(ready.stage(), ready.loads());
    }

    @Override
    public Verdict defer(Verdict.Defer defer) {
      return new Verdict.Defer(List.of());
    }

    @Override
    public Verdict goOn(Verdict.Continue goOn) {
      return goOn;
    }

    @Override
    public Verdict measure(Verdict.Measure measure) {
      return measure;
    }

    @Override
    public Verdict hold(Verdict.Hold hold) {
      return hold;
    }

    @Override
    public Verdict advance(Verdict.Advance advance) {
      return advance;
    }

    @Override
    public Verdict finish(Verdict.Finish finish) {
      return finish;
    }

    @Override
    public Verdict stop(Verdict.Stop stop) {
      return stop;
    }

    @Override
    public Verdict end(Verdict.End end) {
      return end;
    }

    @Override
    public Verdict notRecovered(Verdict.NotRecovered notRecovered) {
      return notRecovered;
    }

    @Override
    public Verdict over(Verdict.Over over) {
      return over;
    }
  }

  /** What is left of a verdict that is compared: loads are compared with a tolerance, texts not. */
  private static final class WithoutLoadsAndTexts extends WithoutInformation {
    @Override
    public Verdict ready(Verdict.Ready ready) {
      return new Verdict.Ready(ready.stage(), List.of());
    }

    @Override
    public Verdict advance(Verdict.Advance advance) {
      return new Verdict.Advance(advance.stage());
    }

    @Override
    public Verdict finish(Verdict.Finish finish) {
      return new Verdict.Finish();
    }

    @Override
    public Verdict stop(Verdict.Stop stop) {
      return new Verdict.Stop(stop.rest(), "");
    }

    @Override
    public Verdict notRecovered(Verdict.NotRecovered notRecovered) {
      return new Verdict.NotRecovered(List.of());
    }
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

  // Texts may be reworded, and the last digit of a computed load may differ between machines.
  private static boolean doTheSame(Verdict one, Verdict other) {
    WithoutLoadsAndTexts bare = new WithoutLoadsAndTexts();
    return one.accept(bare).equals(other.accept(bare))
        && Loading.areSame(one.loads(), other.loads());
  }
}
