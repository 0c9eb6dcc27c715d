package org.gradus.session;

import static java.util.Objects.requireNonNull;

/** Tells a session an event that is to have a certain number; see {@link Session#asEvent}. */
final class NumberedTelling extends Telling {

  private final Session session;
  private final int number;

  NumberedTelling(Session session, int number) {
    this.session = session;
    this.number = number;
  }

  @Override
  public Decision tell(Event event) {
    return session.tellAs(number, event);
  }

  @Override
  public Decision follow(Decision decision) {
    requireNonNull(decision, "decision");
    return session.followAs(number, decision, decision.verdict());
  }

  @Override
  public Decision follow(Decision decision, Decision.Offer offer) {
    Session.refuseUnlessOffered(decision, offer);
    return session.followAs(number, decision, offer.verdict());
  }
}
