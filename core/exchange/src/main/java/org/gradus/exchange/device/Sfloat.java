package org.gradus.exchange.device;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.OptionalDouble;
import org.gradus.diagnostic.ValueRefused;

/**
 * A decimal number in 16 bits, as medical devices send it (IEEE 11073-20601 SFLOAT): a mantissa of
 * 12 bits times ten to an exponent of 4 bits, both in two's complement.
 *
 * @param bits the 16 bits, as a number from 0 to 65535
 */
public record Sfloat(int bits) {

  private static final int LEAST_MANTISSA = -2048;
  private static final int LARGEST_MANTISSA = 2047;
  private static final int LEAST_EXPONENT = -8;
  private static final int MOST_EXPONENT = 7;

  // Five values with exponent 0 are no numbers: +infinity, "not a number", "not at this
  // resolution", reserved, -infinity (IEEE 11073-20601, from memory).
  private static final int FIRST_SPECIAL = 0x07FE;
  private static final int LAST_SPECIAL = 0x0802;

  /**
   * A number by its bits.
   *
   * @throws ValueRefused when they are more than 16
   */
  public Sfloat {
    Width.U16.holding(bits, "an SFLOAT");
  }

  /**
   * The nearest number that 16 bits can hold, with as small an exponent as keeps its digits.
   *
   * @throws ValueRefused when it is larger than any, or not finite
   */
  public static Sfloat of(double value) {
    if (!Double.isFinite(value)) {
      throw new ValueRefused("an SFLOAT", Double.toString(value), "give a finite number");
    }
    BigDecimal exact = BigDecimal.valueOf(value).stripTrailingZeros();
    for (int exponent = 0; exponent >= LEAST_EXPONENT; exponent--) {
      BigDecimal mantissa = exact.scaleByPowerOfTen(-exponent);
      if (mantissa.stripTrailingZeros().scale() <= 0 && fits(mantissa, exponent)) {
        return of(mantissa.intValueExact(), exponent);
      }
    }
    for (int exponent = LEAST_EXPONENT; exponent <= MOST_EXPONENT; exponent++) {
      BigDecimal mantissa = exact.scaleByPowerOfTen(-exponent).setScale(0, RoundingMode.HALF_EVEN);
      if (fits(mantissa, exponent)) {
        return of(mantissa.intValueExact(), exponent);
      }
    }
    throw new ValueRefused(
        "an SFLOAT", Double.toString(value), "the largest is 2047 times ten to the 7th");
  }

  private static boolean fits(BigDecimal mantissa, int exponent) {
    return mantissa.compareTo(BigDecimal.valueOf(LEAST_MANTISSA)) >= 0
        && mantissa.compareTo(BigDecimal.valueOf(LARGEST_MANTISSA)) <= 0
        && of(mantissa.intValueExact(), exponent).value().isPresent();
  }

  private static Sfloat of(int mantissa, int exponent) {
    return new Sfloat((exponent & 0xF) << 12 | (mantissa & 0xFFF));
  }

  /** The number; empty for the five values that are none, such as "not a number". */
  public OptionalDouble value() {
    return bits >= FIRST_SPECIAL && bits <= LAST_SPECIAL
        ? OptionalDouble.empty()
        : OptionalDouble.of(
            BigDecimal.valueOf(mantissa()).scaleByPowerOfTen(exponent()).doubleValue());
  }

  private int mantissa() {
    return bits << 20 >> 20;
  }

  private int exponent() {
    return bits << 16 >> 28;
  }

  @Override
  public String toString() {
    return value().isPresent()
        ? BigDecimal.valueOf(mantissa()).scaleByPowerOfTen(exponent()).toPlainString()
        : "no number";
  }
}
