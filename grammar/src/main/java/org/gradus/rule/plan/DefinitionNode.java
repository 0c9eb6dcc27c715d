package org.gradus.rule.plan;

import java.util.Set;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.check.Term;

/** The name of a definition, evaluated in a frame when it is asked for first. */
sealed interface DefinitionNode extends Node permits NumberNode.Definition, TruthNode.Definition {

  /** What is defined. */
  Term term();

  /** Its planned alternatives. */
  Alternatives alternatives();

  @Override
  default void explainUnknown(Frame frame, Set<Gap> found) {
    alternatives().explainUnknown(term().name(), frame, found);
  }

  @Override
  default void collectUndecided(Region region, Set<String> found) {
    alternatives().collectUndecided(region, found);
  }
}
