package org.gradus.session;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.knowledge.ResultMessage;
import org.gradus.protocol.Fact;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.answer.Gap.Cause;
import org.gradus.rule.check.Demand;
import org.gradus.rule.plan.Frame;
import org.gradus.unit.Type;
import org.gradus.words.Language;
import org.jspecify.annotations.Nullable;

/**
 * Fills a frame, from which rules read, with what is known at one moment: each slot when a rule
 * first looks at it. Rules at the end of a stage see the readings that count for its due times;
 * rules looked at any time see the latest ones.
 */
final class FrameFiller implements Frame.Source {

  private static final String LINE = Language.ENGLISH.say(ResultMessage.THE_LINE);

  private final TestState state;
  private final Optional<StageRun> run;
  private final boolean recovering;
  private final Duration time;
  private final Optional<Map<String, StoredReading>> readings;
  private final boolean counting;
  // Made when first asked for: most frames are asked for little.
  private @Nullable DueReadings slots;

  /**
   * @param recovering whether recovery is seen, and not the stage
   * @param readings the readings to see; empty: those that count for the due time
   * @param counting whether counts of stages are filled; otherwise they are not known
   */
  private FrameFiller(
      TestState state,
      Optional<StageRun> run,
      boolean recovering,
      Duration time,
      Optional<Map<String, StoredReading>> readings,
      boolean counting) {
    this.state = state;
    this.run = run;
    this.recovering = recovering;
    this.time = time;
    this.readings = readings;
    this.counting = counting;
  }

  private static FrameFiller ofStage(
      TestState state,
      Optional<StageRun> run,
      Duration time,
      Optional<Map<String, StoredReading>> readings) {
    return new FrameFiller(state, run, false, time, readings, true);
  }

  private static FrameFiller ofNow(
      TestState state, Duration time, Map<String, StoredReading> readings) {
    boolean recovering = state.recovery.exerciseEnd().isPresent();
    return new FrameFiller(state, state.lastRun(), recovering, time, Optional.of(readings), true);
  }

  /** What is known at a moment, by the latest readings. */
  static Frame latest(TestState state, Duration time) {
    return by(state.readings.latest(), state, time);
  }

  /** What is known of recovery at a moment, by readings that are not too old for it. */
  static Frame standing(TestState state, Duration time) {
    return by(CurrentReadings.of(state, time), state, time);
  }

  /** What is known at a moment, by these readings. */
  static Frame by(Map<String, StoredReading> readings, TestState state, Duration time) {
    return ofNow(state, time, readings).frame();
  }

  /** What was known when the exercise ended; while it lasts, what is known now. */
  static Frame atFinish(TestState state) {
    Map<String, StoredReading> readings =
        state.recovery.exerciseEnd().isPresent()
            ? state.readings.atFinish()
            : state.readings.latest();
    Duration time = state.recovery.exerciseEnd().orElse(state.now);
    return ofStage(state, state.lastRun(), time, Optional.of(readings)).frame();
  }

  /** What is known at a due time of a stage, given since its start. */
  static Frame atDue(TestState state, StageRun run, Duration due) {
    Duration time = run.start().plus(due);
    return ofStage(state, Optional.of(run), time, Optional.empty()).frame();
  }

  /** What was known at the end of a stage that is over, without counts of stages. */
  static Frame withoutCounts(TestState state, StageRun run) {
    Duration time = run.start().plus(run.decided().orElse(run.endInStage()));
    return new FrameFiller(state, Optional.of(run), false, time, Optional.empty(), false).frame();
  }

  /** What a clock shows at a moment; NaN where there is no such time or place. */
  static double clock(TestState state, Duration time, Fact.Clock.Which which) {
    return ofNow(state, time, state.readings.latest()).clock(which);
  }

  private Frame frame() {
    return Frame.onDemand(state.protocol.wiring().layout(), this);
  }

  private boolean isCompleted(String stage) {
    return state.runs.stream()
        .anyMatch(passed -> passed.completed() && passed.stage().id().equals(stage));
  }

  @Override
  public void fill(Frame frame, int slot) {
    Demand demand = frame.layout().demands().get(slot);
    switch (demand.aspect()) {
      case EVER -> truth(frame, slot, state.signs.ever().contains(demand.subject()));
      case COMPLETED -> truth(frame, slot, isCompleted(demand.subject()));
      case COUNT -> counts(frame);
      case LINE_MEAN_X, LINE_MEAN_Y, LINE_SLOPE, INTERPOLATED ->
          frame.miss(slot, Gap.never(LINE, Cause.TOO_FEW_STAGES));
      case VALUE -> value(frame, slot, demand);
      case EARLIER, AVERAGE, HIGHEST, LOWEST ->
          readings(demand.subject())
              .fill(frame, slot, demand)
              .ifPresent(gap -> frame.miss(slot, gap));
    }
  }

  private void counts(Frame frame) {
    Counts.none(state.protocol, frame);
    if (counting && recovering) {
      Counts.fillAfterwards(state, frame);
    } else if (counting && run.isPresent()) {
      Counts.fill(state, run.get(), frame);
    }
  }

  // By due times the readings of a stage count, and those of its pause.
  private DueReadings readings(String signal) {
    if (readings.isPresent() || run.isEmpty()) {
      return slots();
    }
    StageRun stage = readIn(signal, run.get());
    return stage.equals(run.get()) ? slots() : atEndOf(stage);
  }

  private DueReadings slots() {
    DueReadings found = slots;
    if (found == null) {
      // Recovery has due times of its own; those of the last stage say nothing about it.
      Optional<DueSlots> times =
          recovering
              ? DueSlots.ofRecovery(state)
              : run.map(stage -> DueSlots.of(state.protocol, stage));
      found = new DueReadings(times, time, readings);
      slots = found;
    }
    return found;
  }

  private void value(Frame frame, int slot, Demand demand) {
    Fact fact = state.protocol.wiring().fact(slot).orElseThrow();
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

    private Optional<Gap> fill(@Nullable StoredReading taken, Gap otherwise) {
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
        return readings(fact.of()).fill(frame, slot, demand);
      }
      boolean isOld = state.readings.latest().containsKey(fact.of());
      Gap missing = Gap.now(fact.of(), isOld ? Cause.STALE : Cause.NEVER_TAKEN);
      return fill(readings.get().get(fact.of()), missing);
    }

    @Override
    public Optional<Gap> baseline(Fact.Baseline fact) {
      Map<String, StoredReading> taken = state.readings.before(fact.posture());
      return fill(taken.get(fact.of()), Gap.now(demand.subject(), Cause.NEVER_TAKEN));
    }

    @Override
    public Optional<Gap> previousReading(Fact.PreviousReading fact) {
      Optional<StageRun> before = stageBefore();
      // What is read in this pause is that of the stage before; it is compared with an earlier one.
      if (before.isPresent() && run.filter(readIn(fact.of(), before.get())::equals).isPresent()) {
        before = stageBefore(state.runs.lastIndexOf(before.get()));
      }
      if (before.isEmpty()) {
        return Optional.of(Gap.never(demand.subject(), Cause.NOT_IN_STAGE));
      }
      StageRun stage = readIn(fact.of(), before.get());
      return fill(
          atEndOf(stage).standing(fact.of(), decided(stage)).orElse(null),
          Gap.never(demand.subject(), Cause.NEVER_TAKEN));
    }

    @Override
    public Optional<Gap> previousLoad(Fact.PreviousLoad fact) {
      Duration until = run.isPresent() ? run.get().start() : time;
      return fill(
          ofStage(stageBefore(), fact.name(), until), Gap.never(fact.name(), Cause.NOT_IN_STAGE));
    }

    @Override
    public Optional<Gap> atFinish(Fact.AtFinish fact) {
      return fill(
          state.readings.atFinish().get(fact.of()), Gap.never(demand.subject(), Cause.NEVER_TAKEN));
    }

    @Override
    public Optional<Gap> named(Fact.Named fact) {
      Map<String, StoredReading> taken =
          runNaming(fact.name()).map(StageRun::named).orElse(state.readings.named());
      return fill(taken.get(fact.name()), Gap.now(fact.name(), Cause.NEVER_TAKEN));
    }

    // There is no load while the person rests or recovers without one.
    @Override
    public Optional<Gap> load(Fact.Load fact) {
      return recovering
          ? fill(ofRecovery(state, fact.name(), time), Gap.never(fact.name(), Cause.NONE))
          : fill(ofStage(run, fact.name(), time), Gap.never(fact.name(), Cause.NOT_IN_STAGE));
    }

    @Override
    public Optional<Gap> clock(Fact.Clock fact) {
      return fill(
          FrameFiller.this.clock(fact.which()), Gap.never(demand.subject(), Cause.NOT_IN_STAGE));
    }

    @Override
    public Optional<Gap> round(Fact.Round fact) {
      return fill(
          (recovering ? Optional.<StageRun>empty() : run)
              .flatMap(stage -> stage.stage().round())
              .filter(round -> round.block().equals(fact.block()))
              .map(round -> (double) round.number())
              .orElse(Double.NaN),
          Gap.never(demand.subject(), Cause.NOT_IN_STAGE));
    }

    @Override
    public Optional<Gap> attribute(Fact.Attribute fact) {
      return new AnswerFiller(state).attribute(frame, slot, fact.which());
    }

    @Override
    public Optional<Gap> answer(Fact.Answer fact) {
      return new AnswerFiller(state).answer(frame, slot, fact.question());
    }

    // A capacity is worked out after the last decision.
    @Override
    public Optional<Gap> result(Fact.Result fact) {
      return Optional.of(Gap.never(fact.name(), Cause.NEVER_TAKEN));
    }

    @Override
    public Optional<Gap> reported(Fact.Reported fact) {
      double grade = state.signs.grade(fact.name());
      return fill(
          demand.type().equals(Type.CONDITION) ? Math.min(grade, 1) : grade,
          Gap.never(fact.name(), Cause.UNDEFINED));
    }
  }

  // The stage whose own reading a name stands for: this one, or the pause after it; else the newest
  // reading of that name counts.
  private Optional<StageRun> runNaming(String name) {
    if (recovering || run.isEmpty()) {
      return Optional.empty();
    }
    StageRun stage = run.get();
    int after = state.runs.lastIndexOf(stage) + 1;
    Optional<StageRun> pause =
        after > 0 && after < state.runs.size()
            ? Optional.of(state.runs.get(after)).filter(next -> next.stage().pause())
            : Optional.empty();
    return Optional.of(stage)
        .filter(here -> isNamed(name, here))
        .or(() -> pause.filter(next -> isNamed(name, next)));
  }

  private boolean isNamed(String name, StageRun stage) {
    return state.protocol.schedule(stage.stage()).lines().stream()
        .anyMatch(line -> line.named().filter(name::equals).isPresent());
  }

  private static Duration decided(StageRun stage) {
    return stage.decided().orElse(stage.endInStage());
  }

  private DueReadings atEndOf(StageRun stage) {
    return new DueReadings(
        Optional.of(DueSlots.of(state.protocol, stage)),
        stage.start().plus(decided(stage)),
        Optional.empty());
  }

  /**
   * Where a signal is read that belongs to a stage: in the stage, or in the pause that follows it
   * where the stage itself does not read it, as a drop of blood for lactate.
   */
  private StageRun readIn(String signal, StageRun stage) {
    int after = state.runs.lastIndexOf(stage) + 1;
    if (after == 0 || after >= state.runs.size() || isRead(signal, stage)) {
      return stage;
    }
    StageRun next = state.runs.get(after);
    return next.stage().pause() && isRead(signal, next) ? next : stage;
  }

  private boolean isRead(String signal, StageRun stage) {
    return state.protocol.schedule(stage.stage()).lineOf(signal).isPresent();
  }

  private static void truth(Frame frame, int slot, boolean answer) {
    frame.set(slot, answer ? 1 : 0, 0);
  }

  private Optional<StageRun> stageBefore() {
    int at = run.isPresent() ? state.runs.lastIndexOf(run.get()) : -1;
    // A stage that is about to begin is not yet among those gone through.
    return stageBefore(at < 0 ? state.runs.size() : at);
  }

  private Optional<StageRun> stageBefore(int place) {
    int before = place - 1;
    while (before >= 0 && state.runs.get(before).stage().pause()) {
      before--;
    }
    return before >= 0 ? Optional.of(state.runs.get(before)) : Optional.empty();
  }

  /** The value of a component of the load at a moment; NaN where there is none. */
  static double load(TestState state, Duration time, String name) {
    return state.phase == Phase.RECOVERY
        ? ofRecovery(state, name, time)
        : ofStage(state.lastRun(), name, time);
  }

  // Readings at the second of a step belong to the load before it.
  private static double ofStage(Optional<StageRun> stage, String name, Duration until) {
    return stage.map(run -> value(run.loads(), name, run.since(until))).orElse(Double.NaN);
  }

  private static double ofRecovery(TestState state, String name, Duration time) {
    if (state.protocol.recovery().isEmpty()) {
      return Double.NaN;
    }
    RecoveryStage stage = RecoveryStage.at(state, time);
    return value(state.recovery.loads().get(stage.place()), name, time.minus(stage.start()));
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
    Optional<StageRun> stage = recovering ? Optional.empty() : run;
    return switch (which) {
      case STAGE_TIME -> stage.isPresent() ? seconds(stage.get().lasted(time)) : Double.NaN;
      case STAGE_NUMBER -> stage.isPresent() ? stageNumber(stage.get()) : Double.NaN;
      case STAGE -> stage.isPresent() ? stage.get().stage().place() : Double.NaN;
      case TEST_TIME -> state.runs.isEmpty() ? Double.NaN : seconds(state.runs.get(0).since(time));
      case EXERCISE_TIME -> exerciseTime();
      case RECOVERY_TIME ->
          state.recovery.exerciseEnd().isPresent()
              ? seconds(time.minus(state.recovery.exerciseEnd().get()))
              : Double.NaN;
    };
  }

  private static double seconds(Duration duration) {
    return duration.toMillis() / 1000.0;
  }

  private double stageNumber(StageRun stage) {
    double number = stage.stage().isCounted() ? 1 : 0;
    for (StageRun other : state.runs) {
      boolean before = other.start().compareTo(stage.start()) < 0;
      number += before && other.stage().isCounted() ? 1 : 0;
    }
    return number;
  }

  private double exerciseTime() {
    Duration until =
        state.recovery.exerciseEnd().filter(end -> end.compareTo(time) < 0).orElse(time);
    for (StageRun stage : state.runs) {
      if (stage.stage().isCounted()) {
        return seconds(stage.since(until));
      }
    }
    return Double.NaN;
  }
}
