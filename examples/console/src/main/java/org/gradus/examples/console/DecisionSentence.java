package org.gradus.examples.console;

import java.util.List;
import java.util.stream.Collectors;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Stage;
import org.gradus.rule.answer.Gap;
import org.gradus.session.Loading;
import org.gradus.session.Times;
import org.gradus.session.Verdict;
import org.gradus.words.Name;

/** A verdict as a sentence to act on, which a person reads from two metres away. */
final class DecisionSentence implements Verdict.Visitor<String> {

  private final Protocol protocol;
  private final PageWords words;

  private DecisionSentence(Protocol protocol, PageWords words) {
    this.protocol = protocol;
    this.words = words;
  }

  /** Makes the sentence of a verdict by a protocol. */
  static String of(Verdict verdict, Protocol protocol, PageWords words) {
    return verdict.accept(new DecisionSentence(protocol, words));
  }

  private String set(List<Loading> loads) {
    return loads.isEmpty() ? "" : " " + words.say("Set {0}.", Loading.message(loads));
  }

  @Override
  public String ready(Verdict.Ready verdict) {
    return words.say("The person is ready. Begin with {0}.", new Name(verdict.stage()))
        + set(verdict.loads());
  }

  @Override
  public String defer(Verdict.Defer verdict) {
    return words.say("Do not test today.");
  }

  @Override
  public String goOn(Verdict.Continue verdict) {
    return words.say("Go on as you are until {0}.", Times.clock(verdict.until()));
  }

  @Override
  public String measure(Verdict.Measure verdict) {
    String missing =
        verdict.gaps().stream()
            .map(Gap::subject)
            .distinct()
            .map(words::name)
            .collect(Collectors.joining(", "));
    return words.say("Take what is missing: {0}.", missing)
        + verdict
            .until()
            .map(time -> " " + words.say("It is waited for until {0}.", Times.clock(time)))
            .orElse("");
  }

  @Override
  public String hold(Verdict.Hold verdict) {
    return words.say("Stay at this load until {0}.", Times.clock(verdict.until()));
  }

  @Override
  public String change(Verdict.Change verdict) {
    return words.say("Change the load and stay in {0}.", new Name(verdict.stage()))
        + set(verdict.loads());
  }

  @Override
  public String advance(Verdict.Advance verdict) {
    boolean rest = protocol.stage(verdict.stage()).filter(Stage::pause).isPresent();
    return words.say("Go on to {0}.", new Name(verdict.stage()))
        + (rest ? " " + words.say("Set no load: the person rests.") : set(verdict.loads()));
  }

  @Override
  public String finish(Verdict.Finish verdict) {
    return words.say("The test has what it needs: end the exercise.") + set(verdict.then());
  }

  @Override
  public String stop(Verdict.Stop verdict) {
    return verdict.instruction().isEmpty()
        ? words.say("End the exercise at once.")
        : words.text(verdict.instruction());
  }

  @Override
  public String end(Verdict.End verdict) {
    return words.say("The person has recovered. The test can end.");
  }

  @Override
  public String notRecovered(Verdict.NotRecovered verdict) {
    return words.say("Not recovered at the limit: keep watching and get advice.");
  }

  @Override
  public String over(Verdict.Over verdict) {
    return words.say("The test is over.");
  }
}
