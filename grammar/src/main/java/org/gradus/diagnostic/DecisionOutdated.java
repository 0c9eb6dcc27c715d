package org.gradus.diagnostic;

import static java.util.Objects.requireNonNull;

import java.util.List;
import org.gradus.words.Message;

/** A decision was to be followed after something had happened since. Ask again and follow that. */
public final class DecisionOutdated extends GradusException {

  private static final long serialVersionUID = 1L;

  /** Refuses a decision made at a time, because of something that happened since. */
  public DecisionOutdated(String decidedAt, Message since) {
    super(Code.G601, List.of(decidedAt, since));
    requireNonNull(decidedAt, "decidedAt");
    requireNonNull(since, "since");
  }
}
