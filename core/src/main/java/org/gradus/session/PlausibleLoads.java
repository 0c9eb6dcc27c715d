package org.gradus.session;

import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.protocol.LoadRange;
import org.gradus.protocol.Protocol;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;

/**
 * Refuses loads that cannot be. Only those that a person gives are looked at: of what a protocol
 * sets it was proved when it was loaded.
 */
final class PlausibleLoads {

  private final Protocol protocol;

  PlausibleLoads(Protocol protocol) {
    this.protocol = protocol;
  }

  /** Checks the loads that a tester gives with a verdict. */
  void check(Verdict verdict) {
    if (verdict instanceof Verdict.Ready ready) {
      check(ready.loads());
    } else if (verdict instanceof Verdict.Advance advance) {
      check(advance.loads());
    } else if (verdict instanceof Verdict.Finish finish) {
      check(finish.then());
    } else if (verdict instanceof Verdict.Stop stop) {
      check(stop.then());
    }
  }

  /** Checks components of a load, each by itself. */
  void check(List<Loading> loads) {
    for (Loading load : loads) {
      check(load.name(), load.value());
      load.ramp().ifPresent(ramp -> check(load.name(), ramp.to()));
    }
  }

  private void check(String name, Quantity value) {
    Optional<LoadRange> range = Optional.ofNullable(protocol.instruments().loads().get(name));
    if (range.isEmpty()) {
      // A slope may lead downhill; nothing else that is set can be below zero.
      refuseUnless(value.base() >= 0 || value.kind() == Kind.NUMBER, name, value, "0 and more");
      return;
    }
    Kind kind = range.get().range().low().kind();
    if (value.kind() != kind) {
      throw new ReadingRefused(
          Code.G501, name, value.toString(), range.get().range().low().unit().symbol());
    }
    // What follows from a load that was set, a power from a cadence, has many digits.
    Quantity shown = value.rounded(2);
    refuseUnless(
        range.get().holds(value.base()),
        name,
        range.get().holds(shown.base()) ? value : shown,
        range.get().range().toString());
  }

  private static void refuseUnless(boolean possible, String name, Quantity value, String limits) {
    if (!possible) {
      throw new ReadingRefused(Code.G502, name, value.toString(), limits);
    }
  }
}
