package org.gradus.examples.devices;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Map;
import java.util.Optional;
import org.gradus.exchange.device.ControlAnswer;
import org.gradus.exchange.device.ControlAnswer.Result;
import org.gradus.exchange.device.ControlCommand;
import org.gradus.exchange.device.Machine;
import org.gradus.exchange.device.MachineData;
import org.gradus.exchange.device.MachineStatus;
import org.gradus.exchange.device.MachineValue;
import org.gradus.exchange.device.SupportedRange;
import org.gradus.exchange.device.Target;

/** A treadmill as a host sees it: requests and answers, data once a second, its status. */
final class SimulatedTreadmill {

  // The numbers that are sent: 0.01 km/h and 0.1 %. A real belt and motor move about so fast.
  private static final int SPEED_PER_SECOND = 30;
  private static final int GRADE_PER_SECOND = 5;

  private static final SupportedRange SPEEDS = new SupportedRange(Target.SPEED, 50, 1600, 10);
  private static final SupportedRange GRADES = new SupportedRange(Target.GRADE, 0, 250, 5);
  private static final int UNKNOWN_ANGLE = MachineValue.BELT_ANGLE.notAvailable().orElseThrow();

  private final Deque<byte[]> statuses = new ArrayDeque<>();
  private boolean controlled;
  private boolean running;
  private int targetSpeed;
  private int targetGrade;
  private int speed;
  private int grade;

  byte[] supportedSpeeds() {
    return SPEEDS.encode();
  }

  byte[] supportedGrades() {
    return GRADES.encode();
  }

  /** Takes a request and returns the answer. */
  byte[] request(byte[] payload) {
    ControlCommand command = ControlCommand.decode(payload);
    return new ControlAnswer(command.operation(), take(command)).encode();
  }

  private Result take(ControlCommand command) {
    if (command instanceof ControlCommand.RequestControl) {
      controlled = true;
      return Result.SUCCESS;
    } else if (!controlled) {
      return Result.NOT_PERMITTED;
    } else if (command instanceof ControlCommand.Set set) {
      return set(set);
    }
    // Only starting makes it run; resetting, stopping and pausing make it stand.
    running = command instanceof ControlCommand.Start;
    return Result.SUCCESS;
  }

  private Result set(ControlCommand.Set set) {
    SupportedRange range = set.target() == Target.SPEED ? SPEEDS : GRADES;
    if (set.target() == Target.POWER) {
      return Result.NOT_SUPPORTED;
    } else if (set.number() < range.least() || set.number() > range.most()) {
      return Result.INVALID_VALUE;
    } else if (set.target() == Target.SPEED) {
      targetSpeed = set.number();
    } else {
      targetGrade = set.number();
    }
    statuses.add(new MachineStatus.TargetChanged(set.target(), set.number()).encode());
    return Result.SUCCESS;
  }

  /** Somebody pulls the key. */
  void pullSafetyKey() {
    running = false;
    statuses.add(new MachineStatus.StoppedBySafetyKey().encode());
  }

  /** Lets a second go by, and returns what the machine sends about itself. */
  byte[] second() {
    speed = towards(speed, running ? targetSpeed : 0, SPEED_PER_SECOND);
    grade = towards(grade, targetGrade, GRADE_PER_SECOND);
    return new MachineData(
            Machine.TREADMILL,
            Map.of(
                MachineValue.SPEED, speed,
                MachineValue.GRADE, grade,
                MachineValue.BELT_ANGLE, UNKNOWN_ANGLE))
        .encode();
  }

  /** The next status that was not fetched yet. */
  Optional<byte[]> status() {
    return Optional.ofNullable(statuses.poll());
  }

  private static int towards(int now, int target, int most) {
    return now + Math.max(-most, Math.min(most, target - now));
  }
}
