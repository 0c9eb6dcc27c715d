package org.gradus.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.diagnostic.RecordRefused;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Setting;
import org.gradus.session.Event;
import org.gradus.session.Ledger;
import org.gradus.session.Outcome;
import org.gradus.session.Session;

/**
 * What the same test comes to where a setting is another of its words, such as uptakes as they are
 * printed instead of uptakes by an equation.
 *
 * @param setting the setting
 * @param word its other word
 * @param capacity what the test comes to then
 */
record OtherWay(Setting setting, String word, Capacity capacity) {

  /** All other ways of a test. */
  static List<OtherWay> of(Outcome outcome, List<Event> events) {
    List<OtherWay> ways = new ArrayList<>();
    for (Setting setting : outcome.protocol().settings().values()) {
      for (Setting.Option option : setting.options()) {
        if (option.value() instanceof Setting.Word other && !other.equals(setting.value())) {
          Protocol protocol = outcome.protocol().with(setting.name(), other.word());
          capacity(protocol, outcome, events)
              .ifPresent(found -> ways.add(new OtherWay(setting, other.word(), found)));
        }
      }
    }
    return ways;
  }

  // A word that decides how a test goes on has no other way of working out this one.
  private static Optional<Capacity> capacity(
      Protocol protocol, Outcome outcome, List<Event> events) {
    try {
      Session session = Session.resume(protocol, outcome.person(), events, Ledger.NONE);
      return Optional.of(Capacity.of(session.outcome()));
    } catch (RecordRefused | ReadingRefused another) {
      return Optional.empty();
    }
  }

  /** An estimate both ways. */
  record Both(Estimate.Available here, Estimate.Available there) {

    // Less than the readings are sure of says nothing of the setting.
    private boolean differs() {
      double sure = here.interval().map(around -> around.readings().base()).orElse(0.0);
      return Math.abs(here.vo2max().base() - there.vo2max().base()) > sure;
    }
  }

  /** The estimates that come out otherwise, by more than their readings are sure of. */
  List<Both> otherThan(Capacity here) {
    return here.estimates().stream()
        .flatMap(one -> available(one).stream())
        .flatMap(one -> same(one).stream().map(other -> new Both(one, other)))
        .filter(Both::differs)
        .toList();
  }

  private Optional<Estimate.Available> same(Estimate.Available one) {
    return capacity.estimates().stream()
        .filter(other -> other.id().equals(one.id()))
        .findFirst()
        .flatMap(OtherWay::available);
  }

  private static Optional<Estimate.Available> available(Estimate estimate) {
    return estimate.match(
        Optional::of, implausible -> Optional.empty(), unavailable -> Optional.empty());
  }
}
