package org.gradus.capacity;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.knowledge.NormTable;
import org.gradus.protocol.Attribute;
import org.gradus.rule.answer.Truth;
import org.gradus.unit.Quantity;

/** Finds the place of a test's results in tables of reference values. */
final class Norms {

  private final Capacity capacity;
  private final TestFacts facts;

  Norms(Capacity capacity) {
    this.capacity = capacity;
    this.facts = capacity.facts();
  }

  List<Standing> standings(List<NormTable> tables) {
    List<Standing> standings = new ArrayList<>();
    for (NormTable table : tables) {
      if (isMeant(table)) {
        value(table).ifPresent(value -> standings.add(standing(table, value)));
      }
    }
    return standings;
  }

  private boolean isMeant(NormTable table) {
    return table.ergometer().map(facts.ergometer()::equals).orElse(true)
        && table.protocol().map(facts.protocol()::equals).orElse(true)
        && table.when().test(facts.given()) == Truth.TRUE;
  }

  private Optional<Quantity> value(NormTable table) {
    Optional<Quantity> value =
        table.of().equals("vo2max")
            ? capacity.headline().map(Estimate.Available::vo2max)
            : facts.reading(table.of());
    return value.filter(found -> found.kind() == table.unit().kind());
  }

  private Standing standing(NormTable table, Quantity value) {
    Optional<Interval> interval =
        table.of().equals("vo2max")
            ? capacity.headline().flatMap(Estimate.Available::interval)
            : Optional.empty();
    return NormPlace.of(table, value, facts.person().value(Attribute.AGE), interval);
  }
}
