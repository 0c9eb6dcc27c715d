package org.gradus.exchange.device;

import java.util.Optional;

/** Reads a machine status; its numbers are those of the service's open text. */
final class StatusText {

  static final byte RESET = 0x01;
  static final byte HALTED = 0x02;
  static final byte SAFETY_KEY = 0x03;
  static final byte STARTED = 0x04;
  static final int CONTROL_LOST = 0xFF;

  static final byte STOPPED = 0x01;
  static final byte PAUSED = 0x02;

  private StatusText() {}

  static boolean isKnown(int operation) {
    return (operation >= RESET && operation <= STARTED)
        || operation == CONTROL_LOST
        || Target.withStatus(operation).isPresent();
  }

  static MachineStatus read(byte[] payload) {
    PayloadReader reader = new PayloadReader("machine status", payload);
    int operation = reader.unsigned(1, "the operation");
    if (!isKnown(operation)) {
      return new MachineStatus.Other(operation);
    }
    MachineStatus status = known(operation, reader);
    reader.end();
    return status;
  }

  private static MachineStatus known(int operation, PayloadReader reader) {
    Optional<Target> target = Target.withStatus(operation);
    if (target.isPresent()) {
      Target changed = target.get();
      int number = changed.width().read(reader, "the new " + changed.load());
      return new MachineStatus.TargetChanged(changed, number);
    }
    return switch (operation) {
      case RESET -> new MachineStatus.Reset();
      case HALTED -> halted(reader);
      case SAFETY_KEY -> new MachineStatus.StoppedBySafetyKey();
      case STARTED -> new MachineStatus.StartedByUser();
      default -> new MachineStatus.ControlLost();
    };
  }

  private static MachineStatus halted(PayloadReader reader) {
    int how = reader.unsigned(1, "whether it stopped or paused");
    return switch (how) {
      case STOPPED -> new MachineStatus.StoppedByUser();
      case PAUSED -> new MachineStatus.PausedByUser();
      default -> throw reader.refused("says " + how + " where 1 is stopped and 2 is paused");
    };
  }
}
