package org.gradus.exchange.device;

import static java.util.Objects.requireNonNull;

import org.gradus.unit.Quantity;

/**
 * What a host may ask of a machine: requests to the characteristic fitness machine control point
 * (0x2AD9). The machine answers each with a {@link ControlAnswer}.
 *
 * <p>These are values. Nothing is sent until a host sends the bytes, and a host sends them only
 * when a trained person has decided so. <b>A STOP is never only this message</b>: it can be lost,
 * refused or late. Tell the person, use the machine's own stop, and watch the person.
 */
public sealed interface ControlCommand {

  /** The number of the operation, which its answer repeats. */
  int operation();

  /** The bytes of this request. */
  byte[] encode();

  /**
   * The request for a component of a load.
   *
   * @throws org.gradus.diagnostic.ValueRefused when the quantity is of another kind or does not fit
   *     the field
   */
  static ControlCommand set(Target target, Quantity quantity) {
    return new Set(target, target.number(quantity));
  }

  /**
   * Reads a request, as a machine does.
   *
   * @throws PayloadRefused when it is too short or too long, or is none of these requests
   */
  static ControlCommand decode(byte[] payload) {
    requireNonNull(payload, "payload");
    PayloadReader reader = new PayloadReader("control request", payload);
    int operation = reader.unsigned(1, "the operation");
    ControlCommand command =
        Target.withCommand(operation)
            .<ControlCommand>map(
                target ->
                    new Set(target, target.width().read(reader, "the target " + target.load())))
            .orElseGet(() -> plain(operation, reader));
    reader.end();
    return command;
  }

  private static ControlCommand plain(int operation, PayloadReader reader) {
    return switch (operation) {
      case 0x00 -> new RequestControl();
      case 0x01 -> new Reset();
      case 0x07 -> new Start();
      case 0x08 -> halt(reader);
      default ->
          throw reader.refused(
              "asks for operation "
                  + operation
                  + ", which is none of"
                  + " request control, reset, speed, grade, power, start, stop and pause");
    };
  }

  private static ControlCommand halt(PayloadReader reader) {
    int how = reader.unsigned(1, "whether to stop or to pause");
    return switch (how) {
      case 1 -> new Stop();
      case 2 -> new Pause();
      default -> throw reader.refused("says " + how + " where 1 is stop and 2 is pause");
    };
  }

  /** Asks for control, which a machine wants before anything else. */
  record RequestControl() implements ControlCommand {
    @Override
    public int operation() {
      return 0x00;
    }

    @Override
    public byte[] encode() {
      return new byte[] {0x00};
    }
  }

  /** Sets all targets back. */
  record Reset() implements ControlCommand {
    @Override
    public int operation() {
      return 0x01;
    }

    @Override
    public byte[] encode() {
      return new byte[] {0x01};
    }
  }

  /**
   * Sets a component of the load.
   *
   * @param target which
   * @param number how much, as the number that is sent: 105 for 1.05 km/h
   */
  record Set(Target target, int number) implements ControlCommand {
    public Set {
      target.width().holding(number, target.load());
    }

    /** How much. */
    public Quantity quantity() {
      return target.quantity(number);
    }

    @Override
    public int operation() {
      return target.command();
    }

    @Override
    public byte[] encode() {
      PayloadWriter writer = new PayloadWriter().number(1, target.command());
      target.width().write(writer, number);
      return writer.bytes();
    }
  }

  /** Starts the machine, or lets it go on. */
  record Start() implements ControlCommand {
    @Override
    public int operation() {
      return 0x07;
    }

    @Override
    public byte[] encode() {
      return new byte[] {0x07};
    }
  }

  /** Stops the machine. Never the only thing that is done at a STOP. */
  record Stop() implements ControlCommand {
    @Override
    public int operation() {
      return 0x08;
    }

    @Override
    public byte[] encode() {
      return new byte[] {0x08, 0x01};
    }
  }

  /** Pauses the machine. */
  record Pause() implements ControlCommand {
    @Override
    public int operation() {
      return 0x08;
    }

    @Override
    public byte[] encode() {
      return new byte[] {0x08, 0x02};
    }
  }
}
