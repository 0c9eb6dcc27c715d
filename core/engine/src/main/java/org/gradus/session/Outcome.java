package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.protocol.Instruments;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.rule.plan.Frame;

/** A test as it stood at one moment, for working out its result. Immutable; shared freely. */
public final class Outcome {

  private final Course course;

  Outcome(Course course) {
    this.course = course;
  }

  /** The protocol, with its settings. */
  public Protocol protocol() {
    return course.protocol;
  }

  /** The person. */
  public Person person() {
    return course.person;
  }

  /** Where the test stood. */
  public Phase phase() {
    return course.phase;
  }

  /** How it ended, once it has. */
  public Optional<Ending> ending() {
    return course.ending;
  }

  /** Whether the exercise was ended by a stop. */
  public boolean stopped() {
    return course.stopped;
  }

  /**
   * Whether the person has to be cleared before exercising again: the exercise or the test ended
   * while an alarming stop applied, recovery was ended as an emergency, or it was told that the
   * person is not cleared. A stop is alarming unless its rule says {@code alarming: no}.
   */
  public boolean needsClearance() {
    return course.alarmed
        || course.ending.filter(Ending.EMERGENCY::equals).isPresent()
        || cleared().filter(cleared -> !cleared).isPresent();
  }

  /** Whether it was told in recovery that the person is cleared for exercise after the stop. */
  public boolean clearedAfterStop() {
    return cleared().orElse(false);
  }

  private Optional<Boolean> cleared() {
    return Optional.ofNullable(course.answers.get(Instruments.CLEARED_AFTER_STOP))
        .map(answer -> answer.value() == 1);
  }

  /** The load that was set at the last event: of the stage, or of recovery. */
  public List<Loading> load() {
    return load(course.now);
  }

  /** The load at a moment not before the last event, if nothing else is told until then. */
  public List<Loading> load(Duration at) {
    return Agendas.load(course, at);
  }

  /** The stages that were left, in order; not the one that still lasts. */
  public List<StageResult> stages() {
    List<StageResult> results = new ArrayList<>();
    for (int i = 0; i < course.passages.size(); i++) {
      Passage passage = course.passages.get(i);
      if (passage.decided().isPresent()) {
        Duration end =
            i + 1 < course.passages.size()
                ? course.passages.get(i + 1).start()
                : course.exerciseEnd.orElse(course.now);
        results.add(
            new StageResult(
                passage.stage().id(),
                passage.start(),
                passage.lasted(end),
                passage.loadsUntil(passage.start().plus(passage.decided().get())),
                passage.stage().warmUp(),
                passage.completed(),
                i));
      }
    }
    return results;
  }

  /** What was known at the end of a stage, for formulas to read. */
  public Frame atEndOf(StageResult stage) {
    Passage passage = course.passages.get(stage.place());
    return Sight.atDue(course, passage, passage.decided().orElse(passage.endInStage()));
  }

  /** Whether the exercise has ended, and recovery begun if there is one. */
  public boolean exerciseHasEnded() {
    return course.exerciseEnd.isPresent();
  }

  /** What is known of recovery at the last event, by its latest readings. */
  public Frame inRecovery() {
    return Sight.by(course.latest, course, course.now);
  }

  /** What was known at the end of the exercise, by the latest readings. */
  public Frame atFinish() {
    return Sight.atFinish(course);
  }
}
