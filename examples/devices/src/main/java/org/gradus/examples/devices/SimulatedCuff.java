package org.gradus.examples.devices;

import java.util.Optional;
import java.util.OptionalInt;
import org.gradus.exchange.device.HeartRateMessage;
import org.gradus.exchange.device.PressureMessage;
import org.gradus.exchange.device.Sfloat;
import org.gradus.unit.Unit;

/** A cuff on an invented person, whose pressure rises with the heart rate. */
final class SimulatedCuff {

  private static final int TAKES = 30;

  private int left;

  /** Begins to measure, unless it does so already. */
  void start() {
    left = left > 0 ? left : TAKES;
  }

  boolean isBusy() {
    return left > 0;
  }

  /** Lets a second go by, and returns what the cuff sends when it has measured. */
  Optional<byte[]> second(byte[] strapMessage) {
    if (left == 0 || --left > 0) {
      return Optional.empty();
    }
    double rate = Math.max(64, HeartRateMessage.decode(strapMessage).rate());
    return Optional.of(
        new PressureMessage(
                Sfloat.of(Math.rint(118 + (rate - 64) * 0.5)),
                Sfloat.of(76),
                Sfloat.of(90),
                Unit.MMHG,
                Optional.empty(),
                Optional.of(Sfloat.of(rate)),
                OptionalInt.empty(),
                OptionalInt.empty())
            .encode());
  }
}
