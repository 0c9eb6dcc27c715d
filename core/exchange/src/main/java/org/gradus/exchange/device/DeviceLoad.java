package org.gradus.exchange.device;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.GradusException;
import org.gradus.diagnostic.ValueRefused;
import org.gradus.protocol.Recovery;
import org.gradus.protocol.Stage;
import org.gradus.session.Event;
import org.gradus.session.Loading;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantity;

/**
 * What a machine can set, joined with what a protocol asks for.
 *
 * <pre>{@code
 * DeviceLoad machine = DeviceLoad.of(SupportedRange.decode(Target.SPEED, speedBytes),
 *     SupportedRange.decode(Target.GRADE, gradeBytes));
 * machine.check(session).forEach(System.out::println);            // before the test
 *
 * DeviceSetting setting = machine.round(now.verdict().loads());   // after a decision was followed
 * setting.commands().forEach(command -> send(command.encode()));
 * setting.record(session, at);                                    // what was really set
 * }</pre>
 *
 * <p>A value between two steps of the machine is rounded to the nearer one. A value outside its
 * range is not set to the end of the range: it is reported as one that cannot be set, since another
 * load than the protocol's is a decision for the tester.
 *
 * <p>Nothing here sends anything. See the cautions of the package.
 *
 * @param ranges what the machine can set of each component
 */
public record DeviceLoad(Map<Target, SupportedRange> ranges) {

  private static final String REASON = "which load it would have";

  public DeviceLoad {
    requireNonNull(ranges, "ranges");
    Map<Target, SupportedRange> sorted = new EnumMap<>(Target.class);
    sorted.putAll(ranges);
    ranges = Collections.unmodifiableMap(sorted);
  }

  /**
   * A machine with these ranges; a component without a range cannot be set.
   *
   * @throws ValueRefused when a component is given twice
   */
  public static DeviceLoad of(SupportedRange... ranges) {
    requireNonNull(ranges, "ranges");
    Map<Target, SupportedRange> known = new EnumMap<>(Target.class);
    for (SupportedRange range : ranges) {
      if (known.put(range.target(), range) != null) {
        throw new ValueRefused(
            "the range of " + range.target().load(), "given twice", "give it once");
      }
    }
    return new DeviceLoad(known);
  }

  /**
   * Which loads of the session's protocol the machine cannot set, for this person and with what was
   * told so far. The session is not changed. Ask before the test: during a test the stages that are
   * still to come cannot be tried.
   *
   * @return what cannot be set, in the order of the stages, those of recovery last; empty when the
   *     machine can set everything
   * @throws org.gradus.diagnostic.VerdictRefused when the test has begun
   */
  public List<Unsettable> check(Session session) {
    Duration now = now(session);
    List<Unsettable> all = new ArrayList<>();
    for (Stage stage : session.protocol().stages()) {
      all.addAll(problems(stage.id(), begun(session, stage, now), now));
    }
    session
        .protocol()
        .recovery()
        .ifPresent(recovery -> all.addAll(recovery(session, recovery, now)));
    return List.copyOf(all);
  }

  // As it would be if the tester began with this stage; empty where the load is not known yet.
  private static Trial begun(Session session, Stage stage, Duration now) {
    Session fork = session.fork();
    try {
      fork.override(now, new Verdict.Ready(stage.id(), List.of()), REASON);
      return new Trial(fork, "");
    } catch (org.gradus.diagnostic.ReadingRefused unknown) {
      return new Trial(fork, "its load is not known yet: " + unknown.getMessage());
    }
  }

  private record Trial(Session session, String unknown) {}

  private List<Unsettable> problems(String stage, Trial trial, Duration at) {
    return trial.unknown().isEmpty()
        ? problems(stage, trial.session().outcome().load(at))
        : List.of(new Unsettable(stage, "load", trial.unknown()));
  }

  private List<Unsettable> recovery(Session session, Recovery recovery, Duration now) {
    List<Unsettable> all = new ArrayList<>();
    Trial trial = begun(session, session.protocol().stages().get(0), now);
    if (!trial.unknown().isEmpty()) {
      return all;
    }
    Session fork = trial.session();
    try {
      fork.override(now, new Verdict.Finish(), REASON);
    } catch (GradusException unknown) {
      all.add(new Unsettable("recovery", "load", "it is not known yet: " + unknown.getMessage()));
      return all;
    }
    Duration start = now;
    for (Stage stage : recovery.stages()) {
      all.addAll(problems(stage.id(), fork.outcome().load(start)));
      start = start.plus(stage.lasts());
    }
    return all;
  }

  private static Duration now(Session session) {
    List<Event> events = session.events();
    return events.isEmpty() ? Duration.ZERO : events.get(events.size() - 1).at();
  }

  private List<Unsettable> problems(String stage, List<Loading> loads) {
    return round(loads).unsettable().stream()
        .map(problem -> new Unsettable(stage, problem.component(), problem.reason()))
        .toList();
  }

  /**
   * A load as the machine sets it: each component rounded to the nearest step. Of a component that
   * changes step by step, the start, the steps and the end are rounded.
   *
   * @param loads the load that was decided: {@link Verdict#loads}
   */
  public DeviceSetting round(List<Loading> loads) {
    List<Loading> set = new ArrayList<>();
    List<Unsettable> unsettable = new ArrayList<>();
    for (Loading load : loads) {
      Optional<SupportedRange> range = Target.of(load.name()).map(target -> ranges.get(target));
      if (range.isEmpty()) {
        unsettable.add(
            new Unsettable("", load.name(), "the machine takes no message for it; set it by hand"));
        continue;
      }
      String fault = fault(load, range.get());
      if (fault.isEmpty()) {
        set.add(rounded(load, range.get()));
      } else {
        unsettable.add(new Unsettable("", load.name(), fault));
      }
    }
    return new DeviceSetting(loads, set, unsettable);
  }

  private static String fault(Loading load, SupportedRange range) {
    if (range.nearest(load.value()).isEmpty()) {
      return load.value() + " lies outside " + range;
    }
    if (load.ramp().isEmpty()) {
      return "";
    }
    Loading.Ramp ramp = load.ramp().get();
    if (range.nearest(ramp.to()).isEmpty()) {
      return "its end " + ramp.to() + " lies outside " + range;
    }
    return step(ramp, range).base() == 0 && ramp.step().base() != 0
        ? "its steps of " + ramp.step() + " are finer than those of the machine, " + range
        : "";
  }

  private static Loading rounded(Loading load, SupportedRange range) {
    return new Loading(
        load.name(),
        as(load.value(), range.nearest(load.value()).orElseThrow()),
        load.ramp()
            .map(
                ramp ->
                    new Loading.Ramp(
                        step(ramp, range),
                        ramp.every(),
                        as(ramp.to(), range.nearest(ramp.to()).orElseThrow()))));
  }

  private static Quantity step(Loading.Ramp ramp, SupportedRange range) {
    return as(ramp.step(), range.wholeSteps(ramp.step()));
  }

  // What needs no rounding stays as the protocol says it.
  private static Quantity as(Quantity wanted, Quantity set) {
    return set.isSameAs(wanted) ? wanted : set;
  }
}
