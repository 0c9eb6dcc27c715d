package org.gradus.unit;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.ResourceBundle;
import org.gradus.words.MessageKey;

/** Units whose symbol is an English word. All others read the same in every language. */
enum UnitWord implements MessageKey {
  YEAR(Unit.YEAR),
  CYCLES_PER_MINUTE(Unit.CYCLES_PER_MINUTE),
  STEPS_PER_MINUTE(Unit.STEPS_PER_MINUTE),
  INCH(Unit.INCH),
  FOOT(Unit.FOOT),
  MILE(Unit.MILE),
  MINUTE_PER_MILE(Unit.MINUTE_PER_MILE),
  DEGREE(Unit.DEGREE);

  private final Unit unit;

  UnitWord(Unit unit) {
    this.unit = unit;
  }

  static Optional<UnitWord> of(Unit unit) {
    return Arrays.stream(values()).filter(word -> word.unit == unit).findFirst();
  }

  @Override
  public String pattern(Locale language) {
    return ResourceBundle.getBundle("org.gradus.unit.UnitWord", language).getString(name());
  }
}
