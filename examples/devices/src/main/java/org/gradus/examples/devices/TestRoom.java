package org.gradus.examples.devices;

import static org.gradus.session.Readings.answer;
import static org.gradus.session.Readings.resting;
import static org.gradus.session.Times.clock;

import java.time.Duration;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.IntConsumer;
import org.gradus.exchange.device.ControlAnswer;
import org.gradus.exchange.device.ControlCommand;
import org.gradus.exchange.device.DeviceLoad;
import org.gradus.exchange.device.DeviceSetting;
import org.gradus.exchange.device.HeartRateMessage;
import org.gradus.exchange.device.HeartRateStream;
import org.gradus.exchange.device.MachineStatus;
import org.gradus.exchange.device.PressureMessage;
import org.gradus.exchange.device.StreamReading;
import org.gradus.exchange.device.SupportedRange;
import org.gradus.exchange.device.Target;
import org.gradus.protocol.Posture;
import org.gradus.session.Agenda;
import org.gradus.session.Decision;
import org.gradus.session.Loading;
import org.gradus.session.Phase;
import org.gradus.session.Reading;
import org.gradus.session.Session;
import org.gradus.session.Verdict;

/**
 * A host between devices and a session, second by second. The only things that a person says here
 * are the answers before the test; each decision is followed as a tester would who agrees with it.
 */
final class TestRoom {

  private static final int LONGEST = 3600;

  private final SimulatedTreadmill treadmill;
  private final SimulatedStrap strap;
  private final SimulatedCuff cuff = new SimulatedCuff();
  private final Session session;
  private final Consumer<String> log;
  private final DeviceLoad machine;
  private final HeartRateStream stream = new HeartRateStream(HeartRateStream.Limits.USUAL);
  private final Set<Agenda.Item> told = new HashSet<>();
  private Optional<Agenda.Item> measured = Optional.empty();

  TestRoom(
      Session session, SimulatedTreadmill treadmill, SimulatedStrap strap, Consumer<String> log) {
    this.session = session;
    this.treadmill = treadmill;
    this.strap = strap;
    this.log = log;
    this.machine =
        DeviceLoad.of(
            SupportedRange.decode(Target.SPEED, treadmill.supportedSpeeds()),
            SupportedRange.decode(Target.GRADE, treadmill.supportedGrades()));
  }

  /**
   * Runs the whole test in an accelerated clock.
   *
   * @param incident what else happens at a second
   */
  void run(IntConsumer incident) {
    machine.check(session).forEach(problem -> log.accept("the machine cannot set " + problem));
    session.record(
        Duration.ZERO,
        answer("unwell_today", false),
        answer("recent_event", false),
        answer("pregnant", false));
    for (int second = 1; second <= LONGEST && session.phase() != Phase.ENDED; second++) {
      Duration now = Duration.ofSeconds(second);
      incident.accept(second);
      byte[] belt = treadmill.second();
      byte[] pulse = strap.second(belt);
      stream.message(now, HeartRateMessage.decode(pulse));
      cuff.second(pulse).ifPresent(bytes -> pressure(now, PressureMessage.decode(bytes)));
      hear(now);
      decide(now);
    }
  }

  // A stop at the machine is a stop of the test: somebody had a reason.
  private void hear(Duration now) {
    for (Optional<byte[]> next = treadmill.status(); next.isPresent(); next = treadmill.status()) {
      MachineStatus status = MachineStatus.decode(next.get());
      boolean halted =
          status instanceof MachineStatus.StoppedBySafetyKey
              || status instanceof MachineStatus.StoppedByUser;
      if (halted && session.phase() == Phase.STAGE) {
        session.override(now, new Verdict.Stop(true, ""), "stopped at the machine: " + status);
        log.accept(clock(now) + " stopped at the machine: look after the person");
      }
    }
  }

  private void pressure(Duration now, PressureMessage message) {
    Optional<Reading> reading = message.reading();
    Agenda.Item item = measured.orElseThrow();
    measured = Optional.empty();
    if (reading.isEmpty()) {
      log.accept(clock(now) + " the cuff has failed; measure again");
    } else if (session.phase() == Phase.BEFORE) {
      session.record(now, resting(reading.get()));
    } else {
      // It counts for the time at which the cuff was begun.
      session.recordTaken(now, item.due(), reading.get());
    }
  }

  // What was told or done may change the decision of the same second.
  private void decide(Duration now) {
    int before;
    do {
      before = session.events().size();
      act(now, session.decide(now));
    } while (session.events().size() > before);
  }

  private void act(Duration now, Decision decision) {
    switch (decision.kind()) {
      case CONTINUE, MEASURE -> work(now, decision.agenda());
      case READY -> ready(now, decision);
      case OVER -> {}
      case DEFER, HOLD, CHANGE, ADVANCE, FINISH, STOP, END, NOT_RECOVERED -> follow(now, decision);
    }
  }

  // The test begins when the readings at rest are there.
  private void ready(Duration now, Decision decision) {
    if (decision.agenda().items().stream().anyMatch(TestRoom::isAtRest)) {
      work(now, decision.agenda());
    } else {
      request(new ControlCommand.RequestControl());
      request(new ControlCommand.Start());
      follow(now, decision);
    }
  }

  private static boolean isAtRest(Agenda.Item item) {
    return item.readings().stream()
        .anyMatch(reading -> reading.before().equals(Optional.of(Posture.RESTING)));
  }

  private void follow(Duration now, Decision decision) {
    log.accept(decision.toString());
    session.follow(decision);
    Verdict.Kind kind = decision.kind();
    if (kind == Verdict.Kind.STOP) {
      // The message to the machine comes after what really stops a test.
      log.accept(clock(now) + " tell the person, press the machine's own stop, stay with them");
      request(new ControlCommand.Stop());
    } else if (kind != Verdict.Kind.HOLD) {
      set(now);
    }
  }

  private void set(Duration now) {
    List<Loading> load = session.outcome().load(now);
    if (load.isEmpty()) {
      request(new ControlCommand.Stop());
      return;
    }
    DeviceSetting setting = machine.round(load);
    setting.unsettable().forEach(each -> log.accept(clock(now) + " set by hand: " + each));
    boolean all = setting.commands().stream().allMatch(this::request);
    if (!all) {
      log.accept(clock(now) + " the machine has refused; set by hand: " + Loading.line(load));
    } else if (session.phase() == Phase.STAGE) {
      setting.record(session, now);
    }
  }

  private boolean request(ControlCommand command) {
    byte[] answer = treadmill.request(command.encode());
    return ControlAnswer.decode(answer).result() == ControlAnswer.Result.SUCCESS;
  }

  private void work(Duration now, Agenda agenda) {
    // Before the test the person sits; what is read standing is left out here.
    agenda.items().stream()
        .filter(item -> session.phase() != Phase.BEFORE || isAtRest(item))
        .forEach(item -> work(now, item));
    agenda.next().filter(change -> change.at().equals(now)).ifPresent(change -> set(now));
  }

  private void work(Duration now, Agenda.Item item) {
    if (HeartRateStream.reads(item) && item.due().compareTo(now) <= 0 && told.add(key(item))) {
      StreamReading reading = stream.read(item);
      if (reading instanceof StreamReading.Taken taken) {
        session.recordTaken(now, taken.at(), taken.reading());
      } else if (reading instanceof StreamReading.NotTaken missing) {
        log.accept(clock(now) + " " + missing.reason());
      }
    }
    boolean pressure =
        item.readings().stream().anyMatch(reading -> reading.signal().equals("systolic"));
    if (pressure && item.state() == Agenda.State.DUE && !cuff.isBusy()) {
      cuff.start();
      measured = Optional.of(item);
    }
  }

  // The same item comes again, later and with what is still missing, until it is told.
  private static Agenda.Item key(Agenda.Item item) {
    return new Agenda.Item(
        item.readings().stream().filter(reading -> reading.signal().equals("heart_rate")).toList(),
        item.begin(),
        item.due(),
        Agenda.State.DUE,
        Optional.empty());
  }
}
