package org.gradus.testkit;

import java.util.ArrayList;
import java.util.List;
import org.gradus.protocol.BaselineLine;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Question;
import org.gradus.session.Reading;
import org.gradus.session.Readings;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;

/** What is told before a test: readings at rest and answers. */
final class Interview {

  private final Protocol protocol;
  private final Luck luck;
  private final BodyReadings body;

  Interview(Protocol protocol, Luck luck, BodyReadings body) {
    this.protocol = protocol;
    this.luck = luck;
    this.body = body;
  }

  /**
   * All of it, but for what is left out at times.
   *
   * @param yes how often a question is answered with yes
   */
  List<Reading> told(double yes) {
    List<Reading> told = new ArrayList<>();
    for (BaselineLine line : protocol.baselines()) {
      for (Reading reading : body.read(line.signals())) {
        told.add(new Reading.Baseline(line.posture(), reading));
      }
    }
    for (Question question : protocol.instruments().questions().values()) {
      boolean leftOut = luck.chance(question.fallback().isPresent() ? 0.3 : 0.02);
      if (!leftOut) {
        told.add(answer(question, yes));
      }
    }
    return told;
  }

  private Reading answer(Question question, double yes) {
    if (question.type() instanceof Type.Choice choice) {
      return Readings.chosen(question.name(), luck.oneOf(choice.options()));
    } else if (!(question.type() instanceof Type.Measure measure)) {
      return Readings.answer(question.name(), luck.chance(yes));
    } else if (!question.options().isEmpty()) {
      return Readings.answer(question.name(), luck.oneOf(question.options()).value());
    } else if (question.range().isPresent()) {
      Quantity low = question.range().get().low();
      double high = question.range().get().high().base();
      double value = low.base() + luck.share() * (high - low.base());
      Quantity rounded = Quantity.ofBase(value, low.unit()).rounded(1);
      boolean inside = rounded.base() >= low.base() && rounded.base() <= high;
      return Readings.answer(question.name(), inside ? rounded : low);
    } else {
      return Readings.answer(
          question.name(), Quantity.of(luck.between(1, 20), measure.kind().base()));
    }
  }
}
