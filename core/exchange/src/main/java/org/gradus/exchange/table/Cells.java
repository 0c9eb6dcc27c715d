package org.gradus.exchange.table;

import java.math.BigDecimal;
import java.time.Duration;
import java.util.Optional;
import java.util.regex.Pattern;
import org.gradus.diagnostic.ValueRefused;
import org.gradus.session.Times;
import org.gradus.unit.Unit;

/** What stands in single cells. */
final class Cells {

  private static final Pattern NUMBER =
      Pattern.compile("[+-]?[0-9]{1,20}(\\.[0-9]{1,20})?([eE][+-]?[0-9]{1,3})?");
  // A spreadsheet takes a text that begins so for a formula.
  private static final String FORMULA = "=+-@'\t\r";
  private static final double LARGEST_WHOLE = 1e15;

  private Cells() {}

  /** A time; empty when the text is none. */
  static Optional<Duration> time(String cell) {
    try {
      return Optional.of(Times.at(cell));
    } catch (ValueRefused none) {
      return Optional.empty();
    }
  }

  /** A number with all its digits. */
  static String number(double number) {
    boolean whole = number == Math.rint(number) && Math.abs(number) < LARGEST_WHOLE;
    return whole && !(number == 0 && 1 / number < 0)
        ? BigDecimal.valueOf(number).toBigInteger().toString()
        : Double.toString(number);
  }

  /** A number; empty when the text is none. */
  static Optional<Double> number(String cell) {
    if (!NUMBER.matcher(cell).matches()) {
      return Optional.empty();
    }
    double number = Double.parseDouble(cell);
    return Double.isFinite(number) ? Optional.of(number) : Optional.empty();
  }

  /** A unit; an empty cell is a number without one. */
  static Optional<Unit> unit(String cell) {
    return cell.isEmpty() ? Optional.of(Unit.ONE) : Unit.named(cell);
  }

  /** A text that no spreadsheet takes for a formula. */
  static String text(String text) {
    return !text.isEmpty() && FORMULA.indexOf(text.charAt(0)) >= 0 ? "'" + text : text;
  }

  static String textOf(String cell) {
    return cell.startsWith("'") ? cell.substring(1) : cell;
  }

  static String truth(boolean yes) {
    return yes ? "yes" : "no";
  }
}
