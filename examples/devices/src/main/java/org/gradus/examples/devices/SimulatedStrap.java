package org.gradus.examples.devices;

import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import org.gradus.exchange.device.HeartRateMessage;
import org.gradus.exchange.device.HeartRateMessage.Contact;
import org.gradus.exchange.device.Machine;
import org.gradus.exchange.device.MachineData;
import org.gradus.exchange.device.MachineValue;
import org.gradus.library.Equation;
import org.gradus.unit.Quantity;

/** A strap on an invented person, whose heart follows what the belt does. */
final class SimulatedStrap {

  // Invented: 64 bpm at rest, 2.4 bpm more for each mL/kg/min, two thirds of the way in 30 s.
  private static final double AT_REST = 64;
  private static final double PER_UPTAKE = 2.4;
  private static final double SECONDS = 30;
  private static final double UPTAKE_AT_REST = 3.5;

  private final Equation walking;
  private double rate = AT_REST;
  private int second;
  private boolean worn = true;

  SimulatedStrap(Equation walking) {
    this.walking = walking;
  }

  /** The strap slips, or is put right again. */
  void wear(boolean onTheSkin) {
    worn = onTheSkin;
  }

  /** Lets a second go by, and returns what the strap sends. */
  byte[] second(byte[] treadmillData) {
    second++;
    double target = AT_REST + PER_UPTAKE * (uptake(treadmillData) - UPTAKE_AT_REST);
    rate += (target - rate) / SECONDS;
    // Breathing moves the pulse a little.
    int shown = (int) Math.round(rate + Math.sin(second / 4.0));
    int interval = 60 * HeartRateMessage.INTERVALS_PER_SECOND / shown;
    return new HeartRateMessage(
            worn ? shown : 0,
            worn ? Contact.THERE : Contact.MISSING,
            OptionalInt.empty(),
            worn ? List.of(interval) : List.of())
        .encode();
  }

  private double uptake(byte[] treadmillData) {
    MachineData data = MachineData.decode(Machine.TREADMILL, treadmillData);
    Quantity speed = data.quantity(MachineValue.SPEED).orElseThrow();
    Quantity grade = data.quantity(MachineValue.GRADE).orElseThrow();
    return speed.amount() == 0
        ? UPTAKE_AT_REST
        : walking
            .at(Map.of("speed", speed, "grade", grade))
            .value()
            .map(Quantity::amount)
            .orElse(UPTAKE_AT_REST);
  }
}
