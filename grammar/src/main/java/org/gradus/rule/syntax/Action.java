package org.gradus.rule.syntax;

import java.util.Locale;
import java.util.Optional;
import org.gradus.rule.syntax.Expression.Name;

/** What a rule recommends when its condition holds. */
public sealed interface Action {

  /** Which action it is. */
  enum Kind {
    /** End the exercise at once. */
    STOP,
    /** The exercise has served its purpose. */
    FINISH,
    /** Stay at this load. */
    HOLD,
    /** Stay in this stage for its length again, at another load. */
    CHANGE,
    /** Go on to the next stage. */
    ADVANCE,
    /** Let the tester choose this instead. */
    OFFER,
    /** Say something and go on. */
    CAUTION,
    /** Do not test today. */
    DEFER,
    /** Begin at another stage than the first. */
    START_AT,
    /** Recovery is over. */
    END;

    /** The words by which rules write it: {@code "start at"}. */
    public String word() {
      return name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }
  }

  /** Which action it is. */
  Kind kind();

  /** Hands this action to the method for its kind. */
  <R> R accept(Visitor<R> visitor);

  /**
   * One method for each action, so that a new one does not compile until it is dealt with.
   *
   * @param <R> what is worked out
   */
  interface Visitor<R> {
    /** End the exercise at once. */
    R stop(Stop action);

    /** The exercise has served its purpose. */
    R finish(Finish action);

    /** Stay at this load. */
    R hold(Hold action);

    /** Stay in this stage for its length again, at another load. */
    R change(Change action);

    /** Go on to the next stage. */
    R advance(Advance action);

    /** Let the tester choose this instead. */
    R offer(Offer action);

    /** Say something and go on. */
    R caution(Caution action);

    /** Do not test today. */
    R defer(Defer action);

    /** Begin at another stage than the first. */
    R startAt(StartAt action);

    /** Recovery is over. */
    R end(End action);
  }

  /** The words by which rules write it: {@code "hold"}. */
  default String word() {
    return kind().word();
  }

  /** The action that is taken in the end: the one that is offered, otherwise this one. */
  default Action meant() {
    return this;
  }

  /** Whether the rules after it are evaluated all the same, because it only adds something. */
  default boolean isAside() {
    return switch (kind()) {
      case OFFER, CAUTION -> true;
      case STOP, FINISH, HOLD, CHANGE, ADVANCE, DEFER, START_AT, END -> false;
    };
  }

  /** End the exercise at once. */
  record Stop() implements Action {
    @Override
    public Kind kind() {
      return Kind.STOP;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.stop(this);
    }
  }

  /** The exercise has served its purpose. */
  record Finish() implements Action {
    @Override
    public Kind kind() {
      return Kind.FINISH;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.finish(this);
    }
  }

  /**
   * Stay at this load.
   *
   * @param longer by how much the stage is prolonged: a literal or the name of a setting
   * @param times how often at most in one stage
   */
  record Hold(Expression longer, int times) implements Action {
    @Override
    public Kind kind() {
      return Kind.HOLD;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.hold(this);
    }
  }

  /**
   * Stay in this stage for its length again, at another load.
   *
   * @param load the component that changes
   * @param by by how much: a literal or the name of a setting
   * @param times how often at most in one stage
   */
  record Change(Name load, Expression by, int times) implements Action {
    @Override
    public Kind kind() {
      return Kind.CHANGE;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.change(this);
    }
  }

  /**
   * Go on to the next stage.
   *
   * @param to the stage, when it is not simply the next one
   */
  record Advance(Optional<Name> to) implements Action {
    @Override
    public Kind kind() {
      return Kind.ADVANCE;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.advance(this);
    }
  }

  /**
   * Let the tester choose this instead.
   *
   * @param offered what may be chosen
   */
  record Offer(Action offered) implements Action {
    @Override
    public Kind kind() {
      return Kind.OFFER;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.offer(this);
    }

    @Override
    public Action meant() {
      return offered;
    }
  }

  /** Say something and go on. */
  record Caution() implements Action {
    @Override
    public Kind kind() {
      return Kind.CAUTION;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.caution(this);
    }
  }

  /** Do not test today. */
  record Defer() implements Action {
    @Override
    public Kind kind() {
      return Kind.DEFER;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.defer(this);
    }
  }

  /**
   * Begin at another stage than the first.
   *
   * @param stage where
   */
  record StartAt(Name stage) implements Action {
    @Override
    public Kind kind() {
      return Kind.START_AT;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.startAt(this);
    }
  }

  /** Recovery is over. */
  record End() implements Action {
    @Override
    public Kind kind() {
      return Kind.END;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.end(this);
    }
  }
}
