package org.gradus.exchange.device;

import static java.util.Objects.requireNonNull;

import org.gradus.diagnostic.ValueRefused;
import org.gradus.unit.Quantity;

/** What has happened to a machine: the characteristic fitness machine status (0x2ADA). */
public sealed interface MachineStatus {

  /** The bytes of this status. */
  byte[] encode();

  /**
   * Reads a status.
   *
   * @throws PayloadRefused when it is too short or too long for what it says has happened
   */
  static MachineStatus decode(byte[] payload) {
    requireNonNull(payload, "payload");
    return StatusText.read(payload);
  }

  /** The machine was reset. */
  record Reset() implements MachineStatus {
    @Override
    public byte[] encode() {
      return new byte[] {StatusText.RESET};
    }
  }

  /** Somebody stopped the machine at the machine. The session has to be told what that meant. */
  record StoppedByUser() implements MachineStatus {
    @Override
    public byte[] encode() {
      return new byte[] {StatusText.HALTED, StatusText.STOPPED};
    }
  }

  /** Somebody paused the machine at the machine. */
  record PausedByUser() implements MachineStatus {
    @Override
    public byte[] encode() {
      return new byte[] {StatusText.HALTED, StatusText.PAUSED};
    }
  }

  /** The safety key was pulled. */
  record StoppedBySafetyKey() implements MachineStatus {
    @Override
    public byte[] encode() {
      return new byte[] {StatusText.SAFETY_KEY};
    }
  }

  /** Somebody started the machine, or let it go on, at the machine. */
  record StartedByUser() implements MachineStatus {
    @Override
    public byte[] encode() {
      return new byte[] {StatusText.STARTED};
    }
  }

  /**
   * Another target is set; the machine still has to reach it.
   *
   * @param target of which component
   * @param number the target, as the number that is sent: 105 for 1.05 km/h
   */
  record TargetChanged(Target target, int number) implements MachineStatus {
    public TargetChanged {
      target.width().holding(number, target.load());
    }

    /** The target as a quantity. */
    public Quantity quantity() {
      return target.quantity(number);
    }

    @Override
    public byte[] encode() {
      PayloadWriter writer = new PayloadWriter().number(1, target.status());
      target.width().write(writer, number);
      return writer.bytes();
    }
  }

  /** The host has lost control of the machine. */
  record ControlLost() implements MachineStatus {
    @Override
    public byte[] encode() {
      return new byte[] {(byte) StatusText.CONTROL_LOST};
    }
  }

  /**
   * Something this library has no use for, such as another target distance, or something of a later
   * version.
   *
   * @param operation its number, from 0 to 255
   */
  record Other(int operation) implements MachineStatus {
    public Other {
      Width.U8.holding(operation, "an operation");
      if (StatusText.isKnown(operation)) {
        throw new ValueRefused(
            "another status", "operation " + operation, "use the record of this operation");
      }
    }

    @Override
    public byte[] encode() {
      return new byte[] {(byte) operation};
    }
  }
}
