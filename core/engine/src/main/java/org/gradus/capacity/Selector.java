package org.gradus.capacity;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gradus.knowledge.ResultMessage;
import org.gradus.protocol.EstimateLine;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.syntax.Selection;
import org.gradus.session.Outcome;
import org.gradus.session.StageResult;
import org.gradus.session.Times;
import org.gradus.words.FileText;
import org.gradus.words.Joined;
import org.gradus.words.Message;

/**
 * Picks the stages an estimate is made from. Warm-ups and stages that were broken off never
 * qualify.
 */
final class Selector {

  private final Outcome outcome;
  private final StageFrames frames;

  Selector(Outcome outcome, StageFrames frames) {
    this.outcome = outcome;
    this.frames = frames;
  }

  /**
   * What was picked.
   *
   * @param stages the stages in the order of the test
   * @param lacking why the estimate cannot be made from them, if it cannot
   */
  record Selected(List<StageResult> stages, Optional<Message> lacking) {}

  Selected select(EstimateLine line) {
    List<StageResult> fit = new ArrayList<>();
    for (StageResult stage : outcome.stages()) {
      if (fits(stage, line)) {
        fit.add(stage);
      }
    }
    Selection from = line.from();
    return from.match(
        end -> ofTheEnd(end, fit, line),
        all -> open(enough(fit, all.atLeast(), from), line),
        one -> enough(ofStage(one, line), 1, from),
        moment -> new Selected(List.of(), lacking(isOfRecovery(line) ? "recovery" : "finish")));
  }

  private Selected ofTheEnd(Selection.FromEnd end, List<StageResult> fit, EstimateLine line) {
    if (end.last() && end.term().isEmpty()) {
      return lastOnes(end);
    }
    int skipped = end.last() ? Math.max(0, fit.size() - end.count()) : 0;
    List<StageResult> some = fit.stream().skip(skipped).limit(end.count()).toList();
    return open(enough(some, end.count(), end), line);
  }

  private List<StageResult> ofStage(Selection.One one, EstimateLine line) {
    return outcome.stages().stream()
        .filter(stage -> stage.id().equals(one.stage().text()))
        .filter(stage -> stage.pause() ? stage.completed() : fits(stage, line))
        .toList();
  }

  // That a word like usable could not be told of a stage is another matter than that it did not
  // hold:
  // what is missing there is named.
  private Selected open(Selected selected, EstimateLine line) {
    if (selected.lacking().isEmpty() || line.term().isEmpty()) {
      return selected;
    }
    Set<Message> missing = new LinkedHashSet<>();
    for (StageResult stage : outcome.stages()) {
      Frame frame = frames.of(stage);
      if (stage.completed()
          && stage.isCounted()
          && line.term().get().test(frame) == Truth.UNKNOWN) {
        missing.addAll(Missing.of(outcome.protocol(), frame, line.term().get().gaps(frame)));
      }
    }
    return missing.isEmpty()
        ? selected
        : new Selected(
            selected.stages(),
            missing.stream()
                .reduce(
                    selected.lacking(),
                    (said, more) -> said.map(all -> Message.of(Joined.SEMICOLON, all, more)),
                    (one, other) -> one));
  }

  // Without a word like completed these are the last stages of the exercise and no others: a line
  // that was to be read between them would otherwise be read beyond two earlier ones, unsaid.
  private Selected lastOnes(Selection.FromEnd end) {
    List<StageResult> all = outcome.stages().stream().filter(StageResult::isCounted).toList();
    List<StageResult> last = all.subList(Math.max(0, all.size() - end.count()), all.size());
    return last.stream()
        .filter(stage -> !stage.completed())
        .findFirst()
        .map(
            broken ->
                new Selected(
                    last,
                    Optional.of(
                        Message.of(
                            ResultMessage.NEEDS_BROKEN_OFF,
                            new FileText(end.span().inOneLine()),
                            new FileText(broken.id()),
                            Times.clock(broken.lasted())))))
        .orElseGet(() -> enough(last, end.count(), end));
  }

  // A stop cuts the exercise short: neither its length nor what follows tells of the capacity.
  private Optional<Message> lacking(String moment) {
    if (outcome.stopped()) {
      return Optional.of(Message.of(ResultMessage.NEEDS_MOMENT_STOPPED, new FileText(moment)));
    }
    return outcome.exerciseHasEnded()
        ? Optional.empty()
        : Optional.of(Message.of(ResultMessage.NEEDS_MOMENT, new FileText(moment)));
  }

  static boolean isOfRecovery(EstimateLine line) {
    return line.from() instanceof Selection.Moment moment
        && moment.name().text().equals("recovery");
  }

  private boolean fits(StageResult stage, EstimateLine line) {
    return stage.completed()
        && stage.isCounted()
        && (line.term().isEmpty() || line.term().get().test(frames.of(stage)) == Truth.TRUE);
  }

  private static Selected enough(List<StageResult> stages, int needed, Selection from) {
    if (stages.size() >= needed && !stages.isEmpty()) {
      return new Selected(stages, Optional.empty());
    }
    String wanted = from.span().inOneLine();
    return new Selected(
        stages,
        Optional.of(Message.of(ResultMessage.NEEDS_FOUND, new FileText(wanted), stages.size())));
  }
}
