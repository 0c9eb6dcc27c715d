package org.gradus.examples.wholetest;

import java.time.Duration;
import java.util.function.Function;
import org.gradus.session.Decision;
import org.gradus.session.Session;
import org.gradus.session.Times;

/** Tells a session one event after the other and writes down what it answers. */
final class Narrator {

  private final Session session;
  private final StringBuilder out;

  Narrator(Session session, StringBuilder out) {
    this.session = session;
    this.out = out;
  }

  /** Tells an event, in the words of the scene, and gives the answer. */
  Decision tell(String words, Function<Session, Decision> event) {
    Decision answer = event.apply(session);
    line(Times.clock(answer.at()) + "  " + words);
    line("      -> " + answer.verdict());
    answer.because().ifPresent(why -> line("         " + why.rule() + ": " + why.shortly()));
    answer.because().flatMap(why -> why.filled()).ifPresent(numbers -> line("         " + numbers));
    if (!answer.firmness().isFirm()) {
      line("         marginal: " + String.join("; ", answer.firmness().couldFlip()));
    }
    answer.offers().forEach(offer -> line("         offered: " + offer.verdict()));
    answer.cautions().forEach(caution -> line("         caution: " + caution.shortly()));
    return answer;
  }

  /** Asks without telling anything. */
  Decision ask(String words, Duration at) {
    return tell(words, asked -> asked.decide(at));
  }

  /** Does what was recommended. */
  void follow(Decision decision) {
    session.follow(decision);
    line("         followed");
  }

  void line(String text) {
    out.append(text).append('\n');
  }
}
