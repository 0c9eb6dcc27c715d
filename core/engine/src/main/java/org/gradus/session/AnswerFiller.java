package org.gradus.session;

import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Question;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.answer.Gap.Cause;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.plan.Frame;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;

/**
 * Fills slots with what is known of the person and with the answers given before the test. The
 * default of an answer may depend on other answers, which are looked up in the same frame, but
 * never in a circle.
 */
final class AnswerFiller {

  private final TestState state;

  AnswerFiller(TestState state) {
    this.state = state;
  }

  /**
   * The questions that are open: not answered, and needed for this person.
   *
   * @param known what is known at the moment
   */
  static Set<String> open(TestState state, Frame known) {
    Set<String> open = new TreeSet<>();
    for (Question question : state.protocol.instruments().questions().values()) {
      boolean answered = state.readings.answers().containsKey(question.name());
      if (!answered && !isNeedless(question, known)) {
        open.add(question.name());
      }
    }
    return open;
  }

  /** Fills a slot with what is known of the person, or says why it is not known. */
  Optional<Gap> attribute(Frame frame, int slot, Attribute attribute) {
    StoredReading given = state.readings.answers().get(attribute.word());
    Optional<Quantity> known = state.person.value(attribute);
    if (given != null) {
      frame.set(slot, given.value(), given.half());
    } else if (known.isPresent()) {
      frame.set(slot, known.get().base(), 0);
    } else {
      return Optional.of(Gap.now(attribute.word(), Cause.NOT_ANSWERED));
    }
    return Optional.empty();
  }

  /** Fills a slot with the answer to a question, or says why there is none. */
  Optional<Gap> answer(Frame frame, int slot, String name) {
    Question question = state.protocol.instruments().question(name);
    StoredReading given = state.readings.answers().get(name);
    if (given == null && isNeedless(question, frame)) {
      frame.set(slot, 0, 0);
      return Optional.empty();
    }
    double value = given != null ? given.value() : otherwise(question, frame);
    if (Double.isNaN(value)) {
      return Optional.of(Gap.now(name, Cause.NOT_ANSWERED));
    } else if (question.offers(value, frame) != Truth.TRUE) {
      return Optional.of(Gap.now(name, Cause.NOT_OFFERED));
    }
    frame.set(slot, value, given == null ? 0 : given.half());
    return Optional.empty();
  }

  // The default; NaN if there is none.
  private static double otherwise(Question question, Frame frame) {
    return question.fallback().isPresent() ? question.fallback().get().value(frame) : Double.NaN;
  }

  // Whether a question is needless depends only on the person, not on other answers.
  private static boolean isNeedless(Question question, Frame frame) {
    return question.type().equals(Type.CONDITION)
        && question.unless().isPresent()
        && question.unless().get().test(frame) == Truth.TRUE;
  }
}
