package org.gradus.session;

import static org.gradus.session.SessionMessage.*;

import java.util.List;
import org.gradus.rule.answer.Gap;
import org.gradus.words.FileText;
import org.gradus.words.Joined;
import org.gradus.words.Message;

/** Says each verdict in one line. */
final class VerdictMessages implements Verdict.Visitor<Message> {

  static SessionMessage word(Verdict.Kind kind) {
    return switch (kind) {
      case READY -> WORD_READY;
      case DEFER -> WORD_DEFER;
      case CONTINUE -> WORD_CONTINUE;
      case MEASURE -> WORD_MEASURE;
      case HOLD -> WORD_HOLD;
      case CHANGE -> WORD_CHANGE;
      case ADVANCE -> WORD_ADVANCE;
      case FINISH -> WORD_FINISH;
      case STOP -> WORD_STOP;
      case END -> WORD_END;
      case NOT_RECOVERED -> WORD_NOT_RECOVERED;
      case OVER -> WORD_OVER;
    };
  }

  static SessionMessage ending(Ending ending) {
    return switch (ending) {
      case RECOVERED -> ENDING_RECOVERED;
      case NOT_RECOVERED -> ENDING_NOT_RECOVERED;
      case EMERGENCY -> ENDING_EMERGENCY;
      case DEFERRED -> ENDING_DEFERRED;
      case ABANDONED -> ENDING_ABANDONED;
      case DONE -> ENDING_DONE;
    };
  }

  @Override
  public Message ready(Verdict.Ready verdict) {
    return Message.of(
        VERDICT_READY, new FileText(verdict.stage()), Loading.message(verdict.loads()));
  }

  @Override
  public Message defer(Verdict.Defer verdict) {
    List<String> rules = verdict.reasons().stream().map(Because::rule).toList();
    return rules.isEmpty() ? Message.of(VERDICT_DEFER) : Message.of(VERDICT_DEFER_FOR, rules);
  }

  @Override
  public Message goOn(Verdict.Continue verdict) {
    return Message.of(VERDICT_CONTINUE, Times.clock(verdict.until()));
  }

  @Override
  public Message measure(Verdict.Measure verdict) {
    List<Object> missing = verdict.gaps().stream().map(Gap::said).distinct().toList();
    return verdict
        .until()
        .map(until -> Message.of(VERDICT_MEASURE_UNTIL, missing, Times.clock(until)))
        .orElseGet(() -> Message.of(VERDICT_MEASURE, missing));
  }

  @Override
  public Message hold(Verdict.Hold verdict) {
    return Message.of(VERDICT_HOLD, Times.clock(verdict.until()));
  }

  @Override
  public Message change(Verdict.Change verdict) {
    return Message.of(
        VERDICT_CHANGE, Loading.message(verdict.loads()), new FileText(verdict.stage()));
  }

  @Override
  public Message advance(Verdict.Advance verdict) {
    FileText stage = new FileText(verdict.stage());
    return verdict.loads().isEmpty()
        ? Message.of(VERDICT_ADVANCE, stage)
        : Message.of(VERDICT_ADVANCE_AT, stage, Loading.message(verdict.loads()));
  }

  @Override
  public Message finish(Verdict.Finish verdict) {
    return Message.of(VERDICT_FINISH);
  }

  @Override
  public Message stop(Verdict.Stop verdict) {
    return verdict.instruction().isEmpty()
        ? Message.of(VERDICT_STOP)
        : Message.of(VERDICT_STOP_DO, new FileText(verdict.instruction()));
  }

  @Override
  public Message end(Verdict.End verdict) {
    return Message.of(VERDICT_END);
  }

  @Override
  public Message notRecovered(Verdict.NotRecovered verdict) {
    return Message.of(
        VERDICT_NOT_RECOVERED,
        verdict.conditions().stream()
            .<Object>map(condition -> condition)
            .reduce((one, more) -> Message.of(Joined.SEMICOLON, one, more))
            .orElse(""));
  }

  @Override
  public Message over(Verdict.Over verdict) {
    return Message.of(VERDICT_OVER, verdict.ending().message());
  }
}
