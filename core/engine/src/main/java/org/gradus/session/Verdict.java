package org.gradus.session;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.gradus.rule.answer.Gap;
import org.gradus.words.Message;

/** What is recommended now. Its text is one line for people: {@code "HOLD until 4:00"}. */
public sealed interface Verdict {

  /** Which verdict it is. Codes are stable; later versions may add some. */
  enum Kind {
    /** The person is ready; begin. */
    READY,
    /** Do not test today. */
    DEFER,
    /** Go on as you are. */
    CONTINUE,
    /** Read what is missing. */
    MEASURE,
    /** Stay at this load. */
    HOLD,
    /** Stay in the stage for its length again, at another load. */
    CHANGE,
    /** Go to a stage. */
    ADVANCE,
    /** The test has served its purpose; go to recovery. */
    FINISH,
    /** End the exercise at once. */
    STOP,
    /** Recovery is over. */
    END,
    /** The limit of recovery is reached and its conditions are not met. */
    NOT_RECOVERED,
    /** Nothing more is to be decided. */
    OVER
  }

  /** Which verdict it is. */
  Kind kind();

  /** Hands this verdict to the method for its kind. */
  <R> R accept(Visitor<R> visitor);

  /**
   * One method for each verdict, so that a new one does not compile until it is dealt with.
   *
   * @param <R> what is worked out
   */
  interface Visitor<R> {
    /** The person is ready; begin. */
    R ready(Ready verdict);

    /** Do not test today. */
    R defer(Defer verdict);

    /** Go on as you are. */
    R goOn(Continue verdict);

    /** Read what is missing. */
    R measure(Measure verdict);

    /** Stay at this load. */
    R hold(Hold verdict);

    /** Stay in the stage for its length again, at another load. */
    R change(Change verdict);

    /** Go to a stage. */
    R advance(Advance verdict);

    /** The test has served its purpose; go to recovery. */
    R finish(Finish verdict);

    /** End the exercise at once. */
    R stop(Stop verdict);

    /** Recovery is over. */
    R end(End verdict);

    /** The limit of recovery is reached and its conditions are not met. */
    R notRecovered(NotRecovered verdict);

    /** Nothing more is to be decided. */
    R over(Over verdict);
  }

  /** The word for it: {@code "ADVANCE"}, {@code "NOT RECOVERED"}. */
  default String word() {
    return kind().name().replace('_', ' ');
  }

  /** The verdict in one line, to be said in any language. */
  default Message message() {
    return accept(new VerdictMessages());
  }

  /** The word for it alone, to be said in any language. */
  default Message wordMessage() {
    return Message.of(VerdictMessages.word(kind()));
  }

  /** The id of the stage that begins, or begins anew, when it is followed; empty if none does. */
  default Optional<String> begins() {
    return switch (kind()) {
      case READY -> Optional.of(((Ready) this).stage());
      case CHANGE -> Optional.of(((Change) this).stage());
      case ADVANCE -> Optional.of(((Advance) this).stage());
      case DEFER, CONTINUE, MEASURE, HOLD, FINISH, STOP, END, NOT_RECOVERED, OVER ->
          Optional.empty();
    };
  }

  /** What is set when it is followed; empty where nothing is set anew, or nothing at all. */
  default List<Loading> loads() {
    return List.of();
  }

  /**
   * The person is ready; begin.
   *
   * @param stage the stage to begin with
   * @param loads its load; an empty one stands for what the protocol gives
   */
  record Ready(String stage, List<Loading> loads) implements Verdict {
    public Ready {
      requireNonNull(loads, "loads");
      requireNonNull(stage, "stage");
      loads = List.copyOf(loads);
    }

    @Override
    public Kind kind() {
      return Kind.READY;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.ready(this);
    }

    @Override
    public String toString() {
      return message().toString();
    }
  }

  /**
   * Do not test today.
   *
   * @param reasons every reason there is; none in what was done
   */
  record Defer(List<Because> reasons) implements Verdict {
    public Defer {
      requireNonNull(reasons, "reasons");
      reasons = List.copyOf(reasons);
    }

    @Override
    public Kind kind() {
      return Kind.DEFER;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.defer(this);
    }

    @Override
    public String toString() {
      return message().toString();
    }
  }

  /**
   * Go on as you are.
   *
   * @param until when the next decision is due
   */
  record Continue(Duration until) implements Verdict {
    public Continue {
      requireNonNull(until, "until");
    }

    @Override
    public Kind kind() {
      return Kind.CONTINUE;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.goOn(this);
    }

    @Override
    public String toString() {
      return message().toString();
    }
  }

  /**
   * A decision is due but cannot be made: read what is missing.
   *
   * @param gaps what is missing and when it can be settled
   * @param until how long at most it is waited for; before the test there is no limit
   */
  record Measure(List<Gap> gaps, Optional<Duration> until) implements Verdict {
    public Measure {
      requireNonNull(gaps, "gaps");
      requireNonNull(until, "until");
      gaps = List.copyOf(gaps);
    }

    @Override
    public Kind kind() {
      return Kind.MEASURE;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.measure(this);
    }

    @Override
    public String toString() {
      return message().toString();
    }
  }

  /**
   * Stay at this load.
   *
   * @param until when the next decision is due
   */
  record Hold(Duration until) implements Verdict {
    public Hold {
      requireNonNull(until, "until");
    }

    @Override
    public Kind kind() {
      return Kind.HOLD;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.hold(this);
    }

    @Override
    public String toString() {
      return message().toString();
    }
  }

  /**
   * Stay in the stage for its length again, at another load.
   *
   * @param stage the stage
   * @param loads the load to set now
   */
  record Change(String stage, List<Loading> loads) implements Verdict {
    public Change {
      requireNonNull(loads, "loads");
      requireNonNull(stage, "stage");
      loads = List.copyOf(loads);
    }

    @Override
    public Kind kind() {
      return Kind.CHANGE;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.change(this);
    }

    @Override
    public String toString() {
      return message().toString();
    }
  }

  /**
   * Go to a stage.
   *
   * @param stage the stage
   * @param loads its load; empty in an override, where the protocol gives it
   */
  record Advance(String stage, List<Loading> loads) implements Verdict {
    public Advance {
      requireNonNull(loads, "loads");
      requireNonNull(stage, "stage");
      loads = List.copyOf(loads);
    }

    /** To a stage, with the load the protocol gives it. */
    public Advance(String stage) {
      this(stage, List.of());
    }

    @Override
    public Kind kind() {
      return Kind.ADVANCE;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.advance(this);
    }

    @Override
    public String toString() {
      return message().toString();
    }
  }

  /**
   * The test has served its purpose; go to recovery.
   *
   * @param then the load of recovery to set now; empty: none, or in an override what the protocol
   *     gives
   */
  record Finish(List<Loading> then) implements Verdict {
    public Finish {
      requireNonNull(then, "then");
      then = List.copyOf(then);
    }

    /** With the load the protocol gives recovery. */
    public Finish() {
      this(List.of());
    }

    @Override
    public List<Loading> loads() {
      return then;
    }

    @Override
    public Kind kind() {
      return Kind.FINISH;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.finish(this);
    }

    @Override
    public String toString() {
      return message().toString();
    }
  }

  /**
   * End the exercise at once.
   *
   * @param rest whether the load is taken away at once, rather than lowered
   * @param instruction what to do
   * @param then the load to set now; empty: none, or in an override what the protocol gives
   */
  record Stop(boolean rest, String instruction, List<Loading> then) implements Verdict {
    public Stop {
      requireNonNull(instruction, "instruction");
      requireNonNull(then, "then");
      then = List.copyOf(then);
    }

    /** With the load the protocol gives recovery. */
    public Stop(boolean rest, String instruction) {
      this(rest, instruction, List.of());
    }

    @Override
    public List<Loading> loads() {
      return then;
    }

    @Override
    public Kind kind() {
      return Kind.STOP;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.stop(this);
    }

    @Override
    public String toString() {
      return message().toString();
    }
  }

  /** Recovery is over. */
  record End() implements Verdict {
    @Override
    public Kind kind() {
      return Kind.END;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.end(this);
    }

    @Override
    public String toString() {
      return message().toString();
    }
  }

  /**
   * The limit of recovery is reached and its conditions are not met: keep watching, get advice.
   *
   * @param conditions the conditions, with their numbers
   */
  record NotRecovered(List<Message> conditions) implements Verdict {
    public NotRecovered {
      requireNonNull(conditions, "conditions");
      conditions = List.copyOf(conditions);
    }

    /** The conditions in English, with their numbers. */
    public List<String> unmet() {
      return conditions.stream().map(Message::toString).toList();
    }

    @Override
    public Kind kind() {
      return Kind.NOT_RECOVERED;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.notRecovered(this);
    }

    @Override
    public String toString() {
      return message().toString();
    }
  }

  /**
   * Nothing more is to be decided.
   *
   * @param ending how the test ended
   */
  record Over(Ending ending) implements Verdict {
    public Over {
      requireNonNull(ending, "ending");
    }

    @Override
    public Kind kind() {
      return Kind.OVER;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.over(this);
    }

    @Override
    public String toString() {
      return message().toString();
    }
  }
}
