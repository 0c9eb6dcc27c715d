package org.gradus.exchange.device;

import java.util.List;

/** A kind of machine, with the order in which it sends its values. */
public enum Machine {
  /** Treadmill data (0x2ACD). */
  TREADMILL("treadmill data"),
  /** Indoor bike data (0x2AD2). */
  BIKE("indoor bike data");

  private final String what;

  Machine(String what) {
    this.what = what;
  }

  /** The name of its message: {@code "treadmill data"}. */
  public String what() {
    return what;
  }

  /**
   * What it can send, in order; the values of one group are sent together. The place of a group is
   * that of its flag, and the flag of the first is the other way round: 0 where it is sent.
   */
  public List<List<MachineValue>> groups() {
    return switch (this) {
      case TREADMILL ->
          List.of(
              List.of(MachineValue.SPEED),
              List.of(MachineValue.AVERAGE_SPEED),
              List.of(MachineValue.DISTANCE),
              List.of(MachineValue.GRADE, MachineValue.BELT_ANGLE),
              List.of(MachineValue.ASCENT, MachineValue.DESCENT),
              List.of(MachineValue.PACE),
              List.of(MachineValue.AVERAGE_PACE),
              energies(),
              List.of(MachineValue.HEART_RATE),
              List.of(MachineValue.MET),
              List.of(MachineValue.ELAPSED),
              List.of(MachineValue.REMAINING),
              List.of(MachineValue.BELT_FORCE, MachineValue.BELT_POWER));
      case BIKE ->
          List.of(
              List.of(MachineValue.SPEED),
              List.of(MachineValue.AVERAGE_SPEED),
              List.of(MachineValue.CADENCE),
              List.of(MachineValue.AVERAGE_CADENCE),
              List.of(MachineValue.DISTANCE),
              List.of(MachineValue.RESISTANCE),
              List.of(MachineValue.POWER),
              List.of(MachineValue.AVERAGE_POWER),
              energies(),
              List.of(MachineValue.HEART_RATE),
              List.of(MachineValue.MET),
              List.of(MachineValue.ELAPSED),
              List.of(MachineValue.REMAINING));
    };
  }

  private static List<MachineValue> energies() {
    return List.of(
        MachineValue.ENERGY, MachineValue.ENERGY_PER_HOUR, MachineValue.ENERGY_PER_MINUTE);
  }
}
