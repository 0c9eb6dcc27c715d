package org.gradus.library;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.gradus.protocol.Setting;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Symbol;
import org.gradus.unit.Type;

/** What the name of a setting stands for. */
final class SettingSymbols {

  private SettingSymbols() {}

  /** The value it has. */
  static Symbol fixed(Setting setting) {
    return setting.value() instanceof Setting.Figure figure
        ? new Symbol.Figure(figure.quantity())
        : new Symbol.Word(setting.value().toString(), words(setting));
  }

  /** Any value that the file allows, for what has to hold with each of them. */
  static Symbol open(Setting setting) {
    if (!setting.isOpen()) {
      return fixed(setting);
    }
    Type type =
        setting.value() instanceof Setting.Figure figure
            ? new Type.Measure(figure.quantity().kind())
            : new Type.Choice(words(setting));
    return new Symbol.Datum(Demand.value(setting.name(), type), Symbol.Role.FACT);
  }

  private static List<String> words(Setting setting) {
    Set<String> words = new LinkedHashSet<>(Set.of(setting.value().toString()));
    setting.options().forEach(option -> words.add(option.value().toString()));
    return List.copyOf(words);
  }
}
