package org.gradus.library;

import java.util.Optional;
import org.gradus.rule.syntax.Action;

/** What an action comes to, whether it is recommended or only offered. */
final class Actions {

  private Actions() {}

  /** The action itself, or the one that is offered. */
  static Action meant(Action action) {
    return action instanceof Action.Offer offer ? offer.offered() : action;
  }

  /** The hold in an action, if it is one. */
  static Optional<Action.Hold> hold(Action action) {
    return meant(action) instanceof Action.Hold hold ? Optional.of(hold) : Optional.empty();
  }
}
