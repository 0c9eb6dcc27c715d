package org.gradus.unit;

import java.util.Locale;
import java.util.ResourceBundle;
import org.gradus.words.MessageKey;

/** How several quantities are said together. */
enum QuantityMessage implements MessageKey {
  RANGE,
  EITHER;

  @Override
  public String pattern(Locale language) {
    return ResourceBundle.getBundle("org.gradus.unit.QuantityMessage", language).getString(name());
  }
}
