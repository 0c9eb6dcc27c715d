package org.gradus.rule.syntax;

import java.util.Optional;
import org.gradus.rule.syntax.Expression.Name;

/** What a rule recommends when its condition holds. */
public sealed interface Action {

  /** The word by which rules write the action: {@code "hold"}. */
  String word();

  /** End the exercise at once. */
  record Stop() implements Action {
    @Override
    public String word() {
      return "stop";
    }
  }

  /** The exercise has served its purpose. */
  record Finish() implements Action {
    @Override
    public String word() {
      return "finish";
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
    public String word() {
      return "hold";
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
    public String word() {
      return "change";
    }
  }

  /**
   * Go on to the next stage.
   *
   * @param to the stage, when it is not simply the next one
   */
  record Advance(Optional<Name> to) implements Action {
    @Override
    public String word() {
      return "advance";
    }
  }

  /**
   * Let the tester choose this instead.
   *
   * @param offered what may be chosen
   */
  record Offer(Action offered) implements Action {
    @Override
    public String word() {
      return "offer";
    }
  }

  /** Say something and go on. */
  record Caution() implements Action {
    @Override
    public String word() {
      return "caution";
    }
  }

  /** Do not test today. */
  record Defer() implements Action {
    @Override
    public String word() {
      return "defer";
    }
  }

  /**
   * Begin at another stage than the first.
   *
   * @param stage where
   */
  record StartAt(Name stage) implements Action {
    @Override
    public String word() {
      return "start at";
    }
  }

  /** Recovery is over. */
  record End() implements Action {
    @Override
    public String word() {
      return "end";
    }
  }
}
