package org.gradus.session;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Fact;
import org.gradus.protocol.Question;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.answer.Gap.Cause;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.plan.Frame;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;

/**
 * Fills slots with what is known of the person and with the answers given before the test. The
 * default of an answer may depend on other answers, but never in a circle.
 */
final class AnswerFiller {

  private final TestState state;
  // For this frame only: many answers may depend on the same one.
  private final Map<String, Known> answers = new HashMap<>();

  /**
   * An answer, or its default.
   *
   * @param lacking why there is none; empty when there is one
   */
  private record Known(double value, double half, Optional<Cause> lacking) {}

  AnswerFiller(TestState state) {
    this.state = state;
  }

  /** The questions that are open: not answered, and needed for this person. */
  static Set<String> open(TestState state) {
    AnswerFiller filler = new AnswerFiller(state);
    Set<String> open = new TreeSet<>();
    state.protocol.instruments().questions().values().stream()
        .filter(question -> !state.readings.answers().containsKey(question.name()))
        .filter(question -> !filler.isNeedless(question))
        .forEach(question -> open.add(question.name()));
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
  Optional<Gap> fill(Frame frame, int slot, String name) {
    Known known = answers.get(name);
    if (known == null) {
      known = known(state.protocol.instruments().question(name));
      answers.put(name, known);
    }
    if (known.lacking().isEmpty()) {
      frame.set(slot, known.value(), known.half());
    }
    return known.lacking().map(why -> Gap.now(name, why));
  }

  private Known known(Question question) {
    StoredReading given = state.readings.answers().get(question.name());
    if (given == null && isNeedless(question)) {
      return new Known(0, 0, Optional.empty());
    }
    boolean plain =
        question.options().isEmpty() && (given != null || question.fallback().isEmpty());
    Frame asked = with(plain ? Set.of() : question.demands());
    double value = given != null ? given.value() : otherwise(question, asked);
    if (Double.isNaN(value)) {
      return new Known(value, 0, Optional.of(Cause.NOT_ANSWERED));
    }
    return question.offers(value, asked) == Truth.TRUE
        ? new Known(value, given == null ? 0 : given.half(), Optional.empty())
        : new Known(value, 0, Optional.of(Cause.NOT_OFFERED));
  }

  // The default; NaN if there is none.
  private static double otherwise(Question question, Frame asked) {
    return question.fallback().isPresent() ? question.fallback().get().value(asked) : Double.NaN;
  }

  // Whether a question is needless depends only on the person, not on other answers.
  private boolean isNeedless(Question question) {
    return question.type().equals(Type.CONDITION)
        && question
            .unless()
            .filter(unless -> unless.test(with(unless.demands())) == Truth.TRUE)
            .isPresent();
  }

  private Frame with(Set<Demand> wanted) {
    Frame frame = new Frame(state.protocol.wiring().layout());
    List<Demand> demands = frame.layout().demands();
    for (int slot = 0; slot < demands.size(); slot++) {
      Demand demand = demands.get(slot);
      if (demand.aspect() == Aspect.VALUE && wanted.contains(demand)) {
        Fact fact = state.protocol.wiring().fact(demand);
        Optional<Gap> gap =
            fact instanceof Fact.Answer answer
                ? fill(frame, slot, answer.question())
                : attribute(frame, slot, ((Fact.Attribute) fact).which());
        if (gap.isPresent()) {
          frame.miss(slot, gap.get());
        }
      }
    }
    return frame;
  }
}
