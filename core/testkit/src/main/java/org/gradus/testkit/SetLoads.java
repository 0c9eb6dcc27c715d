package org.gradus.testkit;

import java.util.List;
import java.util.stream.Stream;
import org.gradus.protocol.LoadRange;
import org.gradus.protocol.Protocol;
import org.gradus.session.Decision;
import org.gradus.session.Loading;
import org.gradus.unit.Quantity;

/** What is set, and what would be. */
final class SetLoads implements Watch {

  private final Protocol protocol;

  SetLoads(Protocol protocol) {
    this.protocol = protocol;
  }

  @Override
  public void after(Moment moment) {
    moment.answer().ifPresent(this::look);
    look(moment.session().session().outcome().load(), "set after " + moment.step());
  }

  private void look(Decision decision) {
    Stream.concat(
            Stream.of(decision.verdict()), decision.offers().stream().map(Decision.Offer::verdict))
        .forEach(verdict -> look(verdict.loads(), decision));
  }

  private void look(List<Loading> loads, Object where) {
    for (Loading load : loads) {
      LoadRange range = protocol.instruments().loads().get(load.name());
      if (range != null) {
        look(range, load.value(), where);
        load.ramp().ifPresent(ramp -> look(range, ramp.to(), where));
      }
    }
  }

  private static void look(LoadRange range, Quantity value, Object where) {
    Watch.demand(
        range.holds(value.base()),
        range.name() + " of " + value + ", not " + range.range() + ", " + where);
  }
}
