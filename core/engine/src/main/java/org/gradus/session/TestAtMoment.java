package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.internal.KeyMoments;
import org.gradus.protocol.Instruments;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.rule.plan.Frame;

/** A test at the moment of its last event. Immutable, as its course is. */
final class TestAtMoment implements Outcome, KeyMoments {

  private final Course course;

  TestAtMoment(Course course) {
    this.course = course;
  }

  @Override
  public Protocol protocol() {
    return course.protocol;
  }

  @Override
  public Person person() {
    return course.person;
  }

  @Override
  public Phase phase() {
    return course.phase;
  }

  @Override
  public Optional<Ending> ending() {
    return course.ending;
  }

  @Override
  public boolean stopped() {
    return course.stopped;
  }

  @Override
  public boolean needsClearance() {
    return course.alarmed
        || course.ending.filter(Ending.EMERGENCY::equals).isPresent()
        || cleared().filter(cleared -> !cleared).isPresent();
  }

  @Override
  public boolean clearedAfterStop() {
    return cleared().orElse(false);
  }

  private Optional<Boolean> cleared() {
    return Optional.ofNullable(course.answers.get(Instruments.CLEARED_AFTER_STOP))
        .map(answer -> answer.value() == 1);
  }

  @Override
  public List<Loading> load() {
    return load(course.now);
  }

  @Override
  public List<Loading> load(Duration at) {
    return Agendas.load(course, at);
  }

  @Override
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

  @Override
  public Frame atEndOf(int place) {
    Passage passage = course.passages.get(place);
    return Sight.atDue(course, passage, passage.decided().orElse(passage.endInStage()));
  }

  @Override
  public boolean exerciseHasEnded() {
    return course.exerciseEnd.isPresent();
  }

  @Override
  public Frame inRecovery() {
    return Sight.by(course.latest, course, course.now);
  }

  @Override
  public Frame atFinish() {
    return Sight.atFinish(course);
  }
}
