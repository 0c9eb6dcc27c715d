package org.gradus.examples.benchmarks;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.gradus.bundled.Bundled;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.rule.Rule;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.check.Layout;
import org.gradus.rule.plan.Frame;

/** The rules as they are shipped, on one frame for each moment. */
final class GradusRules implements Evaluator {

  private static final Protocol WALK = Bundled.library().protocol("graded-walk-standard");

  private static final Gap GAP = Gap.now("a reading", Gap.Cause.NEVER_TAKEN);

  private final Rule[] rules = rules().map(ProtocolRule::rule).toArray(Rule[]::new);
  private final Frame[] frames;
  private final double[] heartRates;
  private final int heartRateSlot;

  GradusRules(AskedMoment[] moments) {
    Layout layout = WALK.wiring().layout();
    frames = new Frame[moments.length];
    heartRates = new double[moments.length];
    for (int i = 0; i < moments.length; i++) {
      frames[i] = frame(layout, moments[i]);
      heartRates[i] = moments[i].heartRate;
    }
    heartRateSlot = slot(layout, "heart_rate");
  }

  /**
   * All rules at any time and at the end of a stage, in the order of {@link Translation}.
   *
   * @throws IllegalStateException when the protocol has other rules by now
   */
  private static Stream<ProtocolRule> rules() {
    Map<String, ProtocolRule> shipped = new LinkedHashMap<>();
    Stream.of(WALK.rules().anyTime(), WALK.rules().stageEnd())
        .flatMap(List::stream)
        .forEach(rule -> shipped.put(rule.id(), rule));
    List<String> ids = Translation.ids();
    if (!shipped.keySet().equals(Set.copyOf(ids))) {
      throw new IllegalStateException("the protocol has other rules: " + shipped.keySet());
    }
    return ids.stream().map(id -> Objects.requireNonNull(shipped.get(id)));
  }

  @Override
  public long pass(int moment) {
    Frame frame = frames[moment];
    // A frame remembers the values of definitions; a reading put into it makes it forget them.
    put(frame, heartRateSlot, heartRates[moment]);
    long answers = 0;
    for (Rule rule : rules) {
      answers = Answers.and(answers, number(rule.test(frame)));
    }
    return answers;
  }

  private static long number(Truth truth) {
    return truth == Truth.TRUE ? Answers.YES : truth == Truth.FALSE ? Answers.NO : Answers.UNKNOWN;
  }

  private static int slot(Layout layout, String name) {
    List<String> names = layout.demands().stream().map(GradusRules::name).toList();
    return names.indexOf(name);
  }

  private static String name(Demand demand) {
    return demand.aspect() == Aspect.EARLIER ? "earlier " + demand.subject() : demand.subject();
  }

  private static Frame frame(Layout layout, AskedMoment moment) {
    Frame frame = new Frame(layout);
    List<String> unused = new ArrayList<>();
    for (int slot = 0; slot < layout.size(); slot++) {
      String name = name(layout.demands().get(slot));
      Optional<Double> value = value(name, moment);
      put(frame, slot, value.orElse(Double.NaN));
      if (value.isEmpty()) {
        unused.add(name);
      }
    }
    rules()
        .flatMap(rule -> rule.rule().condition().stream())
        .flatMap(condition -> condition.demands().stream())
        .map(GradusRules::name)
        .filter(unused::contains)
        .findFirst()
        .ifPresent(
            missing -> {
              throw new IllegalStateException("the rules ask for something new: " + missing);
            });
    return frame;
  }

  private static void put(Frame frame, int slot, double value) {
    if (Double.isNaN(value)) {
      frame.miss(slot, GAP);
    } else {
      frame.set(slot, value, 0);
    }
  }

  private static Optional<Double> value(String name, AskedMoment moment) {
    return switch (name) {
      case "heart_rate" -> Optional.of(moment.heartRate);
      case "earlier heart_rate" -> Optional.of(moment.heartRateBefore);
      case "previous_stage.heart_rate" -> Optional.of(moment.previousHeartRate);
      case "systolic" -> Optional.of(moment.systolic);
      case "diastolic" -> Optional.of(moment.diastolic);
      case "previous_stage.systolic" -> Optional.of(moment.previousSystolic);
      case "upright.systolic" -> Optional.of(moment.uprightSystolic);
      case "resting.systolic" -> Optional.of(moment.restingSystolic);
      case "breathless" -> Optional.of(moment.breathless);
      case "leg_pain" -> Optional.of(moment.legPain);
      case "rpe" -> Optional.of(moment.rating);
      case "stage.time" -> Optional.of(moment.stageTime);
      case "age" -> Optional.of(moment.age);
      case "measured_max_heart_rate" -> Optional.of(moment.measuredMaxHeartRate);
      case "lowers_heart_rate" -> Optional.of(moment.lowersHeartRate);
      case "chest_pain" -> Optional.of(number(moment.chestPain));
      case "confused_or_unsteady" -> Optional.of(number(moment.confusedOrUnsteady));
      case "light_headed" -> Optional.of(number(moment.lightHeaded));
      case "pale_or_cold" -> Optional.of(number(moment.paleOrCold));
      case "irregular_pulse" -> Optional.of(number(moment.irregularPulse));
      case "asks_to_stop" -> Optional.of(number(moment.asksToStop));
      case "equipment_fault" -> Optional.of(number(moment.equipmentFault));
      case "handrail" -> Optional.of(number(moment.handrail));
      default -> Optional.empty();
    };
  }

  private static double number(boolean sign) {
    return sign ? 1 : 0;
  }
}
