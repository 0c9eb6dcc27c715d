package org.gradus.session;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.IntPredicate;
import org.gradus.protocol.Fact;
import org.gradus.protocol.Wiring;
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

  /**
   * What is known of the person before the test, with nothing else; from the first stage on it
   * stays as it is.
   */
  static Frame ofThePerson(Course course) {
    Sight sight = ofNow(course, course.now, course.latest);
    Wiring wiring = course.protocol.wiring();
    return sight.filled(new Frame(wiring.layout()), wiring::isOfThePerson);
  }

  private Frame frame() {
    Wiring wiring = course.protocol.wiring();
    return course.ofThePerson.isPresent()
        ? filled(course.ofThePerson.get().copy(), slot -> !wiring.isOfThePerson(slot))
        : filled(new Frame(wiring.layout()), slot -> true);
  }

  private Frame filled(Frame frame, IntPredicate slots) {
    List<Demand> demands = frame.layout().demands();
    for (int slot = 0; slot < demands.size(); slot++) {
      if (slots.test(slot)) {
        fill(frame, slot, demands.get(slot));
      }
    }
    return frame;
  }

  private Frame counted() {
    Frame frame = frame();
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
      case EARLIER, AVERAGE, HIGHEST, LOWEST ->
          slots.fill(frame, slot, demand).ifPresent(gap -> frame.miss(slot, gap));
    }
  }

  private void value(Frame frame, int slot, Demand demand) {
    Fact fact = course.protocol.wiring().fact(slot).orElseThrow();
    fact.accept(new Filling(frame, slot, demand)).ifPresent(gap -> frame.miss(slot, gap));
  }

  /** Fills a slot with the value of a fact, or says why there is none. */
  private final class Filling implements Fact.Visitor<Optional<Gap>> {

    private final Frame frame;
    private final int slot;
    private final Demand demand;

    private Filling(Frame frame, int slot, Demand demand) {
      this.frame = frame;
      this.slot = slot;
      this.demand = demand;
    }

    private Optional<Gap> fill(@Nullable Taken taken, Gap otherwise) {
      if (taken == null) {
        return Optional.of(otherwise);
      }
      taken.fill(frame, slot);
      return Optional.empty();
    }

    private Optional<Gap> fill(double value, Gap otherwise) {
      if (Double.isNaN(value)) {
        return Optional.of(otherwise);
      }
      frame.set(slot, value, 0);
      return Optional.empty();
    }

    @Override
    public Optional<Gap> read(Fact.Read fact) {
      if (readings.isEmpty()) {
        return slots.fill(frame, slot, demand);
      }
      boolean isOld = course.latest.containsKey(fact.of());
      Gap missing = Gap.now(fact.of(), isOld ? Cause.STALE : Cause.NEVER_TAKEN);
      return fill(readings.get().get(fact.of()), missing);
    }

    @Override
    public Optional<Gap> baseline(Fact.Baseline fact) {
      Map<String, Taken> taken = course.baselines.getOrDefault(fact.posture(), Map.of());
      return fill(taken.get(fact.of()), Gap.now(demand.subject(), Cause.NEVER_TAKEN));
    }

    @Override
    public Optional<Gap> previousReading(Fact.PreviousReading fact) {
      Optional<Passage> before = stageBefore();
      if (before.isEmpty()) {
        return Optional.of(Gap.never(demand.subject(), Cause.NOT_IN_STAGE));
      }
      Passage stage = before.get();
      Duration decided = stage.decided().isPresent() ? stage.decided().get() : stage.endInStage();
      SlotSight then =
          new SlotSight(
              Optional.of(DueSlots.of(course.protocol, stage)),
              stage.start().plus(decided),
              Optional.empty());
      return fill(
          then.standing(fact.of(), decided).orElse(null),
          Gap.never(demand.subject(), Cause.NEVER_TAKEN));
    }

    @Override
    public Optional<Gap> previousLoad(Fact.PreviousLoad fact) {
      Duration until = passage.isPresent() ? passage.get().start() : time;
      return fill(
          ofStage(stageBefore(), fact.name(), until), Gap.never(fact.name(), Cause.NOT_IN_STAGE));
    }

    @Override
    public Optional<Gap> atFinish(Fact.AtFinish fact) {
      return fill(course.atFinish.get(fact.of()), Gap.never(demand.subject(), Cause.NEVER_TAKEN));
    }

    @Override
    public Optional<Gap> named(Fact.Named fact) {
      return fill(course.named.get(fact.name()), Gap.now(fact.name(), Cause.NEVER_TAKEN));
    }

    // Whoever rests, or recovers without a load, moves nothing: then there is none.
    @Override
    public Optional<Gap> load(Fact.Load fact) {
      return recovering
          ? fill(ofRecovery(course, fact.name(), time), Gap.never(fact.name(), Cause.NONE))
          : fill(ofStage(passage, fact.name(), time), Gap.never(fact.name(), Cause.NOT_IN_STAGE));
    }

    @Override
    public Optional<Gap> clock(Fact.Clock fact) {
      return fill(Sight.this.clock(fact.which()), Gap.never(demand.subject(), Cause.NOT_IN_STAGE));
    }

    @Override
    public Optional<Gap> attribute(Fact.Attribute fact) {
      return answers.attribute(frame, slot, fact.which());
    }

    @Override
    public Optional<Gap> answer(Fact.Answer fact) {
      return answers.fill(frame, slot, fact.question());
    }

    // A capacity is worked out when nothing is decided any more.
    @Override
    public Optional<Gap> result(Fact.Result fact) {
      return Optional.of(Gap.never(fact.name(), Cause.NEVER_TAKEN));
    }

    @Override
    public Optional<Gap> reported(Fact.Reported fact) {
      double grade = course.signs.getOrDefault(fact.name(), 0.0);
      return fill(
          demand.type().equals(Type.CONDITION) ? Math.min(grade, 1) : grade,
          Gap.never(fact.name(), Cause.UNDEFINED));
    }
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

  /** What a component of the load is at a moment; not a number where there is none. */
  static double load(Course course, Duration time, String name) {
    return course.phase == Phase.RECOVERY
        ? ofRecovery(course, name, time)
        : ofStage(course.passage(), name, time);
  }

  // Readings at the second of a step belong to the load before it.
  private static double ofStage(Optional<Passage> stage, String name, Duration until) {
    return stage
        .map(passage -> value(passage.loads(), name, passage.since(until)))
        .orElse(Double.NaN);
  }

  private static double ofRecovery(Course course, String name, Duration time) {
    if (course.protocol.recovery().isEmpty()) {
      return Double.NaN;
    }
    RecoveryStage stage = RecoveryStage.at(course, time);
    return value(course.recoveryLoads.get(stage.place()), name, time.minus(stage.start()));
  }

  private static double value(List<Loading> loads, String name, Duration since) {
    for (Loading load : loads) {
      if (load.name().equals(name)) {
        return load.until(since).value().base();
      }
    }
    return Double.NaN;
  }

  // Whoever recovers is in no stage of the exercise any more.
  private double clock(Fact.Clock.Which which) {
    Optional<Passage> stage = recovering ? Optional.empty() : passage;
    return switch (which) {
      case STAGE_TIME -> stage.isPresent() ? seconds(stage.get().lasted(time)) : Double.NaN;
      case STAGE_NUMBER -> stage.isPresent() ? stageNumber(stage.get()) : Double.NaN;
      case STAGE -> stage.isPresent() ? stage.get().stage().place() : Double.NaN;
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
