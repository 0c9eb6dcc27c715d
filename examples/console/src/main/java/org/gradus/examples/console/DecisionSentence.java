package org.gradus.examples.console;

import java.util.stream.Collectors;
import org.gradus.rule.answer.Gap;
import org.gradus.session.Loading;
import org.gradus.session.Times;
import org.gradus.session.Verdict;

/** A verdict as a sentence to act on, which a person reads from two metres away. */
final class DecisionSentence implements Verdict.Visitor<String> {

  /** Makes the sentence of a verdict. */
  static String of(Verdict verdict) {
    return verdict.accept(new DecisionSentence());
  }

  private static String set(java.util.List<Loading> loads) {
    return loads.isEmpty() ? "" : " Set " + Loading.line(loads) + ".";
  }

  @Override
  public String ready(Verdict.Ready verdict) {
    return "The person is ready. Begin with "
        + Typed.words(verdict.stage())
        + "."
        + set(verdict.loads());
  }

  @Override
  public String defer(Verdict.Defer verdict) {
    return "Do not test today.";
  }

  @Override
  public String goOn(Verdict.Continue verdict) {
    return "Go on as you are until " + Times.clock(verdict.until()) + ".";
  }

  @Override
  public String measure(Verdict.Measure verdict) {
    return "Take what is missing: "
        + verdict.gaps().stream()
            .map(Gap::called)
            .distinct()
            .map(Typed::words)
            .collect(Collectors.joining(", "))
        + "."
        + verdict
            .until()
            .map(time -> " It is waited for until " + Times.clock(time) + ".")
            .orElse("");
  }

  @Override
  public String hold(Verdict.Hold verdict) {
    return "Stay at this load until " + Times.clock(verdict.until()) + ".";
  }

  @Override
  public String change(Verdict.Change verdict) {
    return "Change the load and stay in "
        + Typed.words(verdict.stage())
        + "."
        + set(verdict.loads());
  }

  @Override
  public String advance(Verdict.Advance verdict) {
    return "Go on to " + Typed.words(verdict.stage()) + "." + set(verdict.loads());
  }

  @Override
  public String finish(Verdict.Finish verdict) {
    return "The test has what it needs: end the exercise."
        + (verdict.then().isEmpty() ? "" : set(verdict.then()));
  }

  @Override
  public String stop(Verdict.Stop verdict) {
    return verdict.instruction().isEmpty() ? "End the exercise at once." : verdict.instruction();
  }

  @Override
  public String end(Verdict.End verdict) {
    return "The person has recovered. The test can end.";
  }

  @Override
  public String notRecovered(Verdict.NotRecovered verdict) {
    return "Not recovered at the limit: keep watching and get advice.";
  }

  @Override
  public String over(Verdict.Over verdict) {
    return "The test is over.";
  }
}
