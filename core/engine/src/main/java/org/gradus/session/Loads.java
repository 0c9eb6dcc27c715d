package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import org.gradus.protocol.Brake;
import org.gradus.protocol.LoadRange;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Stage;
import org.gradus.rule.plan.Frame;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** Computes the load of a stage that is about to begin, and the load after one component is set. */
final class Loads {

  private Loads() {}

  static List<Loading> of(TestState state, Stage stage, Duration at) {
    // A component may rest on those before it: a grade on the speed it is walked at.
    List<Loading> loads = new ArrayList<>();
    // A fixed load has the same value on any frame.
    Frame any = new Frame(state.protocol.wiring().layout());
    for (Stage.Load load : stage.loads()) {
      Frame frame =
          load.isPlain()
              ? any
              : FrameFiller.atDue(state, StageRun.begin(stage, loads, at), Duration.ZERO);
      double value = load.value().value(frame);
      if (!Double.isNaN(value)) {
        Quantity begins = Quantity.ofBase(value, load.unit());
        Optional<Loading.Ramp> ramp =
            load.ramp().flatMap(change -> ramp(change, begins, load.unit(), frame));
        loads.add(new Loading(load.name(), begins, ramp));
      }
    }
    return braked(state.protocol, loads);
  }

  private static Optional<Loading.Ramp> ramp(
      Stage.Ramp ramp, Quantity from, Unit unit, Frame frame) {
    double step = ramp.step().value(frame);
    double to = ramp.to().value(frame);
    boolean leadsThere = step * (to - from.base()) > 0;
    return leadsThere
        ? Optional.of(
            new Loading.Ramp(Quantity.ofBase(step, unit), ramp.every(), Quantity.ofBase(to, unit)))
        : Optional.empty();
  }

  // On a cycle that is braked by hand the force is what is set.
  static List<Loading> braked(Protocol protocol, List<Loading> loads) {
    if (protocol.brake().isEmpty()) {
      return List.copyOf(loads);
    }
    Optional<Loading> power = named(Brake.POWER, loads);
    Optional<Double> rate = steady(loads);
    if (power.isEmpty() || rate.isEmpty()) {
      return List.copyOf(loads);
    }
    Brake brake = protocol.brake().get();
    DoubleUnaryOperator force = watts -> brake.force(watts, rate.get());
    List<Loading> all = new ArrayList<>(loads);
    all.removeIf(load -> load.name().equals(Brake.FORCE));
    all.add(
        new Loading(
            Brake.FORCE,
            kiloponds(power.get().value(), force),
            power
                .get()
                .ramp()
                .map(
                    ramp ->
                        new Loading.Ramp(
                            kiloponds(ramp.step(), force),
                            ramp.every(),
                            kiloponds(ramp.to(), force)))));
    return List.copyOf(all);
  }

  private static Quantity kiloponds(Quantity power, DoubleUnaryOperator force) {
    return Quantity.ofBase(force.applyAsDouble(power.base()), Unit.KILOPOND);
  }

  private static Optional<Loading> named(String name, List<Loading> loads) {
    for (Loading load : loads) {
      if (load.name().equals(name)) {
        return Optional.of(load);
      }
    }
    return Optional.empty();
  }

  private static Optional<Double> steady(List<Loading> loads) {
    return named(Brake.PEDAL_RATE, loads)
        .filter(rate -> rate.ramp().isEmpty() && rate.value().base() > 0)
        .map(rate -> rate.value().base());
  }

  /**
   * The loads with one of them moved by a step; empty where it is not set, or would leave what the
   * protocol says is possible.
   */
  static Optional<List<Loading>> changed(
      Protocol protocol, List<Loading> loads, String name, Quantity step) {
    Optional<Loading> old = named(name, loads);
    Optional<LoadRange> range = Optional.ofNullable(protocol.instruments().loads().get(name));
    if (old.isEmpty() || range.isEmpty()) {
      return Optional.empty();
    }
    Quantity value = old.get().value();
    Quantity moved = Quantity.ofBase(value.base() + step.base(), value.unit()).rounded(6);
    if (!range.get().isAtLeastLow(moved.base()) || !range.get().isAtMostHigh(moved.base())) {
      return Optional.empty();
    }
    List<Loading> changed = new ArrayList<>(loads);
    changed.replaceAll(
        load -> load.name().equals(name) ? new Loading(name, moved, Optional.empty()) : load);
    return Optional.of(braked(protocol, changed));
  }

  /** The loads with one of them as it is really set. */
  static List<Loading> set(TestState state, List<Loading> loads, Loading told) {
    List<Loading> changed = new ArrayList<>(loads);
    changed.replaceAll(old -> old.name().equals(told.name()) ? told : old);
    Optional<Loading> force = named(Brake.FORCE, changed);
    Optional<Double> rate = steady(changed);
    if (force.isEmpty() || rate.isEmpty() || told.name().equals(Brake.POWER)) {
      return braked(state.protocol, changed);
    }
    // The brake stays as it is set, so a higher cadence means more power.
    Brake brake = state.protocol.brake().orElseThrow();
    DoubleUnaryOperator power = newtons -> brake.power(newtons, rate.get());
    changed.replaceAll(
        old ->
            old.name().equals(Brake.POWER) ? against(force.get(), power, old.value().unit()) : old);
    return List.copyOf(changed);
  }

  // What is done against a force, which may change step by step.
  private static Loading against(Loading force, DoubleUnaryOperator power, Unit unit) {
    return new Loading(
        Brake.POWER,
        watts(force.value(), power, unit),
        force
            .ramp()
            .map(
                ramp ->
                    new Loading.Ramp(
                        watts(ramp.step(), power, unit),
                        ramp.every(),
                        watts(ramp.to(), power, unit))));
  }

  private static Quantity watts(Quantity force, DoubleUnaryOperator power, Unit unit) {
    return Quantity.ofBase(power.applyAsDouble(force.base()), unit);
  }
}
