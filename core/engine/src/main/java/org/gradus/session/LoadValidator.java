package org.gradus.session;

import java.time.Duration;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.protocol.Brake;
import org.gradus.protocol.LoadRange;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Recovery;
import org.gradus.protocol.Stage;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.words.FileText;
import org.gradus.words.Message;

/**
 * Refuses impossible loads that a person gives. The loads that a protocol sets were proved possible
 * when it was loaded.
 */
final class LoadValidator {

  private static final Duration SHORTEST_STEP = Duration.ofSeconds(1);

  private final Protocol protocol;

  LoadValidator(Protocol protocol) {
    this.protocol = protocol;
  }

  /** Checks the loads that a tester gives with a verdict. */
  void check(Verdict verdict) {
    List<Stage> set =
        verdict.begins().isPresent()
            ? verdict.begins().flatMap(protocol::stage).stream().toList()
            : protocol.recovery().map(Recovery::stages).orElse(List.of());
    check(set, verdict.loads());
  }

  // Of each component that these stages set, one value at most.
  private void check(List<Stage> stages, List<Loading> loads) {
    check(Loads.braked(protocol, loads));
    List<String> names =
        stages.stream()
            .flatMap(known -> known.loads().stream())
            .map(Stage.Load::name)
            .distinct()
            .toList();
    Set<String> given = new HashSet<>();
    for (Loading load : loads) {
      boolean worksOut = protocol.brake().isPresent() && load.name().equals(Brake.FORCE);
      if (!given.add(load.name()) || !(names.contains(load.name()) || worksOut)) {
        throw new ReadingRefused(
            Code.G508,
            new FileText(load.name()),
            Loading.message(List.of(load)),
            names.isEmpty()
                ? Message.of(SessionMessage.NOTHING_IS_SET)
                : Message.of(SessionMessage.GIVE_EACH_ONCE, List.copyOf(names)));
      }
    }
  }

  /** Checks components of a load, each by itself. */
  void check(List<Loading> loads) {
    for (Loading load : loads) {
      check(load.name(), load.value());
      load.ramp().ifPresent(ramp -> check(load, ramp));
    }
  }

  // Between two possible ends every step is possible, if it leads from one to the other.
  private void check(Loading load, Loading.Ramp ramp) {
    check(load.name(), ramp.to());
    if (ramp.step().kind() != load.value().kind()) {
      throw new ReadingRefused(
          Code.G501, new FileText(load.name()), ramp.step(), load.value().unit().symbol());
    }
    Times.refuseImpossible(
        Message.of(SessionMessage.RAMP_STEP_OF, new FileText(load.name())), ramp.every());
    boolean away = ramp.step().base() * (ramp.to().base() - load.value().base()) < 0;
    if (away || ramp.every().compareTo(SHORTEST_STEP) < 0) {
      throw new ReadingRefused(
          Code.G508,
          new FileText(load.name()),
          Loading.message(List.of(load)),
          away ? Message.of(SessionMessage.STEPS_LEAD_AWAY, ramp.to()) : SessionMessage.STEPS_LAST);
    }
  }

  private void check(String name, Quantity value) {
    Optional<LoadRange> range = Optional.ofNullable(protocol.instruments().loads().get(name));
    if (range.isEmpty()) {
      // A slope may lead downhill; nothing else that is set can be below zero.
      refuseUnless(
          value.base() >= 0 || value.kind() == Kind.NUMBER,
          name,
          value,
          Message.of(SessionMessage.ZERO_AND_MORE));
      return;
    }
    Kind kind = range.get().range().low().kind();
    if (value.kind() != kind) {
      throw new ReadingRefused(
          Code.G501, new FileText(name), value, range.get().range().low().unit().symbol());
    }
    // What follows from a load that was set, a power from a cadence, has many digits.
    Quantity shown = value.rounded(2);
    refuseUnless(
        range.get().holds(value.base()),
        name,
        range.get().holds(shown.base()) ? value : shown,
        Message.of(SessionMessage.RANGE, range.get().range().low(), range.get().range().high()));
  }

  private static void refuseUnless(boolean possible, String name, Quantity value, Message limits) {
    if (!possible) {
      throw new ReadingRefused(Code.G502, new FileText(name), value, limits);
    }
  }
}
