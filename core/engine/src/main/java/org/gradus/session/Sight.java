package org.gradus.session;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.protocol.Fact;
import org.gradus.protocol.SlotChanges;
import org.gradus.protocol.SlotChanges.SlotSet;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.answer.Gap.Cause;
import org.gradus.rule.check.Demand;
import org.gradus.rule.plan.Frame;
import org.gradus.unit.Type;
import org.jspecify.annotations.Nullable;

/**
 * Shows a course to the rules: fills a frame with what is known at one moment. Rules at the end of
 * a stage see the readings that count for its due times; rules looked at any time see the latest
 * ones.
 */
final class Sight {

  private final Course course;
  private final Optional<Passage> passage;
  private final boolean recovering;
  private final Duration time;
  private final Optional<Map<String, Taken>> readings;
  private final AnswerSight answers;
  private final SlotSight slots;

  /**
   * @param recovering whether recovery is seen, and not the stage
   * @param readings the readings to see; empty: those that count for the due time
   */
  private Sight(
      Course course,
      Optional<Passage> passage,
      boolean recovering,
      Duration time,
      Optional<Map<String, Taken>> readings) {
    // Recovery has due times of its own; those of the last stage say nothing about it.
    Optional<DueSlots> slots =
        recovering
            ? DueSlots.ofRecovery(course)
            : passage.map(stage -> DueSlots.of(course.protocol, stage));
    this.course = course;
    this.passage = passage;
    this.recovering = recovering;
    this.time = time;
    this.readings = readings;
    this.answers = new AnswerSight(course);
    this.slots = new SlotSight(slots, time, readings);
  }

  private static Sight ofStage(
      Course course,
      Optional<Passage> passage,
      Duration time,
      Optional<Map<String, Taken>> readings) {
    return new Sight(course, passage, false, time, readings);
  }

  private static Sight ofNow(Course course, Duration time, Map<String, Taken> readings) {
    boolean recovering = course.exerciseEnd.isPresent();
    return new Sight(course, course.passage(), recovering, time, Optional.of(readings));
  }

  /** What is known at a moment, by the latest readings. */
  static Frame latest(Course course, Duration time) {
    return by(course.latest, course, time);
  }

  /** What is known of recovery at a moment, by readings that are not too old for it. */
  static Frame standing(Course course, Duration time) {
    return by(Standing.of(course, time), course, time);
  }

  /**
   * What is known at a moment by the latest readings, when what was known before is at hand: only
   * what can have changed is looked up again.
   */
  static Frame again(Frame before, Course course, Duration time, SlotSet changed) {
    Sight sight = ofNow(course, time, course.latest);
    return sight.counted(sight.filled(before.copy(), changed));
  }

  /** What is known at a moment, by these readings. */
  static Frame by(Map<String, Taken> readings, Course course, Duration time) {
    return ofNow(course, time, readings).counted();
  }

  /** What was known when the exercise ended, or is known as long as it lasts. */
  static Frame atFinish(Course course) {
    Map<String, Taken> readings = course.exerciseEnd.isPresent() ? course.atFinish : course.latest;
    Duration time = course.exerciseEnd.orElse(course.now);
    return ofStage(course, course.passage(), time, Optional.of(readings)).counted();
  }

  /** What is known at a due time of a stage, given since its start. */
  static Frame atDue(Course course, Passage passage, Duration due) {
    Duration time = passage.start().plus(due);
    return ofStage(course, Optional.of(passage), time, Optional.empty()).counted();
  }

  /** What was known at the end of a stage that is over, but for what is counted over stages. */
  static Frame withoutCounts(Course course, Passage passage) {
    Duration time = passage.start().plus(passage.decided().orElse(passage.endInStage()));
    return ofStage(course, Optional.of(passage), time, Optional.empty()).frame();
  }

  /** What a clock shows at a moment; not a number where there is no such time or place. */
  static double clock(Course course, Duration time, Fact.Clock.Which which) {
    return ofNow(course, time, course.latest).clock(which);
  }

  /** What a component of the load is at a moment; not a number where there is none. */
  static double load(Course course, Duration time, String name) {
    List<Loading> loads = List.of();
    Duration since = Duration.ZERO;
    if (course.phase == Phase.RECOVERY) {
      RecoveryStage stage = RecoveryStage.at(course, time);
      loads = course.recoveryLoads.get(stage.place());
      since = time.minus(stage.start());
    } else if (course.passage().isPresent()) {
      loads = course.passage().get().loads();
      since = course.passage().get().since(time);
    }
    for (Loading load : loads) {
      if (load.name().equals(name)) {
        return load.until(since).value().base();
      }
    }
    return Double.NaN;
  }

  private Frame frame() {
    // What was settled, reported or done is the same at all moments of one course.
    SlotChanges changes = course.protocol.wiring().changes();
    Optional<Frame> shown = course.shown();
    return shown.isPresent()
        ? filled(shown.get().copy(), changes.byLook())
        : filled(new Frame(course.protocol.wiring().layout()), changes.any());
  }

  private Frame filled(Frame frame, SlotSet slots) {
    List<Demand> demands = frame.layout().demands();
    slots.each(slot -> fill(frame, slot, demands.get(slot)));
    return frame;
  }

  private Frame counted() {
    return counted(frame());
  }

  private Frame counted(Frame frame) {
    if (recovering) {
      Counts.fillAfterwards(course, frame);
    } else if (passage.isPresent()) {
      Counts.fill(course, passage.get(), frame);
    }
    return frame;
  }

  private boolean isCompleted(String stage) {
    return course.passages.stream()
        .anyMatch(passed -> passed.completed() && passed.stage().id().equals(stage));
  }

  private void fill(Frame frame, int slot, Demand demand) {
    switch (demand.aspect()) {
      case EVER -> truth(frame, slot, course.everReported.contains(demand.subject()));
      case COMPLETED -> truth(frame, slot, isCompleted(demand.subject()));
      case COUNT -> frame.miss(slot, Gap.never(demand.subject(), Cause.NOT_IN_STAGE));
      case LINE_MEAN_X, LINE_MEAN_Y, LINE_SLOPE ->
          frame.miss(slot, Gap.never("the line", Cause.TOO_FEW_STAGES));
      case VALUE -> value(frame, slot, demand);
      case EARLIER, AVERAGE, HIGHEST, LOWEST -> slots.fill(frame, slot, demand);
    }
  }

  private void value(Frame frame, int slot, Demand demand) {
    Fact fact = course.protocol.wiring().fact(slot).orElseThrow();
    if (fact instanceof Fact.Read) {
      reading(frame, slot, demand);
    } else if (fact instanceof Fact.Baseline baseline) {
      Map<String, Taken> taken = course.baselines.getOrDefault(baseline.posture(), Map.of());
      if (!put(frame, slot, taken.get(baseline.signal()))) {
        frame.miss(slot, Gap.now(demand.subject(), Cause.NEVER_TAKEN));
      }
    } else if (fact instanceof Fact.Previous previous) {
      previous(frame, slot, previous, demand.subject());
    } else if (fact instanceof Fact.AtFinish finish) {
      if (!put(frame, slot, course.atFinish.get(finish.signal()))) {
        frame.miss(slot, Gap.never(demand.subject(), Cause.NEVER_TAKEN));
      }
    } else if (fact instanceof Fact.Named named) {
      if (!put(frame, slot, course.named.get(named.name()))) {
        frame.miss(slot, Gap.now(named.name(), Cause.NEVER_TAKEN));
      }
    } else if (fact instanceof Fact.Load load && recovering) {
      loadOfRecovery(frame, slot, load.name());
    } else if (fact instanceof Fact.Load load) {
      load(frame, slot, passage, load.name(), time);
    } else if (fact instanceof Fact.Clock clock) {
      clock(frame, slot, clock, demand.subject());
    } else if (fact instanceof Fact.Attribute attribute) {
      answers.attribute(frame, slot, attribute.which());
    } else if (fact instanceof Fact.Answer answer) {
      answers.fill(frame, slot, answer.question());
    } else if (fact instanceof Fact.Reported reported) {
      double grade = course.signs.getOrDefault(reported.name(), 0.0);
      frame.set(slot, demand.type().equals(Type.CONDITION) ? Math.min(grade, 1) : grade, 0);
    }
  }

  private void reading(Frame frame, int slot, Demand demand) {
    if (readings.isEmpty()) {
      slots.fill(frame, slot, demand);
    } else if (!put(frame, slot, readings.get().get(demand.subject()))) {
      boolean old = course.latest.containsKey(demand.subject());
      frame.miss(slot, Gap.now(demand.subject(), old ? Cause.STALE : Cause.NEVER_TAKEN));
    }
  }

  // Whether there was anything to put there.
  private static boolean put(Frame frame, int slot, @Nullable Taken taken) {
    if (taken == null) {
      return false;
    }
    taken.fill(frame, slot);
    return true;
  }

  private static void truth(Frame frame, int slot, boolean answer) {
    frame.set(slot, answer ? 1 : 0, 0);
  }

  private Optional<Passage> stageBefore() {
    int at = passage.isPresent() ? course.passages.lastIndexOf(passage.get()) : -1;
    // A stage that is about to begin is not yet among those gone through.
    int before = at < 0 ? course.passages.size() - 1 : at - 1;
    return before >= 0 ? Optional.of(course.passages.get(before)) : Optional.empty();
  }

  private void previous(Frame frame, int slot, Fact.Previous previous, String subject) {
    Optional<Passage> before = stageBefore();
    if (previous.load()) {
      Duration until = passage.isPresent() ? passage.get().start() : time;
      load(frame, slot, before, previous.name(), until);
      return;
    }
    if (before.isEmpty()) {
      frame.miss(slot, Gap.never(subject, Cause.NOT_IN_STAGE));
      return;
    }
    Passage stage = before.get();
    Duration decided = stage.decided().isPresent() ? stage.decided().get() : stage.endInStage();
    SlotSight then =
        new SlotSight(
            Optional.of(DueSlots.of(course.protocol, stage)),
            stage.start().plus(decided),
            Optional.empty());
    Optional<Taken> taken = then.standing(previous.name(), decided);
    if (!put(frame, slot, taken.orElse(null))) {
      frame.miss(slot, Gap.never(subject, Cause.NEVER_TAKEN));
    }
  }

  // Readings at the second of a step belong to the load before it.
  private static void load(
      Frame frame, int slot, Optional<Passage> stage, String name, Duration until) {
    if (stage.isPresent()) {
      for (Loading load : stage.get().loads()) {
        if (load.name().equals(name)) {
          frame.set(slot, load.until(stage.get().since(until)).value().base(), 0);
          return;
        }
      }
    }
    frame.miss(slot, Gap.never(name, Cause.NOT_IN_STAGE));
  }

  // Whoever rests, or recovers without a load, moves nothing: then there is none.
  private void loadOfRecovery(Frame frame, int slot, String name) {
    if (course.protocol.recovery().isPresent()) {
      RecoveryStage stage = RecoveryStage.at(course, time);
      for (Loading load : course.recoveryLoads.get(stage.place())) {
        if (load.name().equals(name)) {
          Duration since = time.minus(stage.start());
          frame.set(slot, load.until(since).value().base(), 0);
          return;
        }
      }
    }
    frame.miss(slot, Gap.never(name, Cause.NONE));
  }

  private void clock(Frame frame, int slot, Fact.Clock clock, String subject) {
    double value = clock(clock.which());
    if (Double.isNaN(value)) {
      frame.miss(slot, Gap.never(subject, Cause.NOT_IN_STAGE));
    } else {
      frame.set(slot, value, 0);
    }
  }

  private double clock(Fact.Clock.Which which) {
    return switch (which) {
      case STAGE_TIME -> passage.isPresent() ? seconds(passage.get().lasted(time)) : Double.NaN;
      case STAGE_NUMBER -> passage.isPresent() ? stageNumber(passage.get()) : Double.NaN;
      case STAGE -> passage.isPresent() ? passage.get().stage().place() : Double.NaN;
      case TEST_TIME ->
          course.passages.isEmpty() ? Double.NaN : seconds(course.passages.get(0).since(time));
      case EXERCISE_TIME -> exerciseTime();
      case RECOVERY_TIME ->
          course.exerciseEnd.isPresent()
              ? seconds(time.minus(course.exerciseEnd.get()))
              : Double.NaN;
    };
  }

  private static double seconds(Duration duration) {
    return duration.toMillis() / 1000.0;
  }

  private double stageNumber(Passage stage) {
    double number = stage.stage().warmUp() ? 0 : 1;
    for (Passage other : course.passages) {
      boolean before = other.start().compareTo(stage.start()) < 0;
      number += before && !other.stage().warmUp() ? 1 : 0;
    }
    return number;
  }

  private double exerciseTime() {
    Duration until = course.exerciseEnd.filter(end -> end.compareTo(time) < 0).orElse(time);
    for (Passage stage : course.passages) {
      if (!stage.stage().warmUp()) {
        return seconds(stage.since(until));
      }
    }
    return Double.NaN;
  }
}
