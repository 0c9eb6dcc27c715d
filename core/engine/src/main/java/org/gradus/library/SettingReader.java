package org.gradus.library;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.knowledge.Citation;
import org.gradus.library.YamlNode.Entry;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.protocol.Setting;
import org.gradus.protocol.Setting.Figure;
import org.gradus.protocol.Setting.Option;
import org.gradus.protocol.Setting.Value;
import org.gradus.protocol.Setting.Word;
import org.gradus.unit.QuantityRange;

/** Reads the settings of a file. */
final class SettingReader {

  private final ScalarParser texts;

  SettingReader(ScalarParser texts) {
    this.texts = texts;
  }

  void read(List<Entry> entries, Draft draft) {
    for (Entry entry : entries) {
      String name = entry.key().value();
      Optional<Setting> found =
          texts.isName(entry.key())
              ? Keys.of(entry.value(), "a setting", texts.problems())
                  .flatMap(keys -> setting(name, keys))
              : Optional.empty();
      found.ifPresentOrElse(
          setting -> draft.settings.put(name, new Placed<>(entry.key().span(), setting)),
          () -> draft.faulty.add(name));
    }
  }

  // A setting of which the value could be read is kept whatever else is wrong: rules use the value.
  private Optional<Setting> setting(String name, Keys keys) {
    Optional<Scalar> text = keys.needText("value");
    Optional<Value> value = text.flatMap(this::value);
    int before = texts.problems().count();
    List<Option> options = new ArrayList<>();
    for (YamlNode item : keys.items("options")) {
      Keys.of(item, "an option", texts.problems())
          .flatMap(option -> option(option, value, options))
          .ifPresent(options::add);
    }
    Optional<Scalar> limits = keys.text("range");
    Optional<QuantityRange> range = limits.flatMap(given -> range(given, value));
    Citation own = texts.source(keys);
    keys.done();
    if (keys.has("options")) {
      keys.idle("range", "a setting with options", "print the options, or give a range");
    }
    if (value.isEmpty()) {
      return Optional.empty();
    }
    Citation printed =
        options.stream()
            .filter(option -> option.value().equals(value.get()))
            .map(Option::source)
            .findFirst()
            .orElse(own);
    Setting setting = new Setting(name, value.get(), options, range, own.isNamed() ? own : printed);
    if (texts.problems().count() == before && !setting.isConsistent()) {
      texts.notA(
          text.orElseThrow(),
          "among what this setting allows",
          "the file allows " + setting.allowed());
    }
    return Optional.of(setting);
  }

  private Optional<QuantityRange> range(Scalar text, Optional<Value> value) {
    if (value.isPresent() && value.get() instanceof Figure figure) {
      return texts.range(text, figure.quantity().kind());
    } else if (value.isPresent()) {
      texts.notA(text, "a choice of words", "list the words under options");
      return Optional.empty();
    }
    return texts.range(text);
  }

  private Optional<Option> option(Keys keys, Optional<Value> value, List<Option> others) {
    Optional<Scalar> text = keys.needText("value");
    Optional<Value> found = text.flatMap(option -> option(option, value));
    boolean twice = found.filter(one -> isAmong(one, others)).isPresent();
    if (twice) {
      Scalar again = text.orElseThrow();
      texts.problems().add(again.span(), Code.G306, "the option " + again.value());
    }
    Citation source = texts.source(keys.text("source"));
    String note = ScalarParser.string(keys.text("note"));
    keys.done();
    return twice ? Optional.empty() : found.map(one -> new Option(one, source, note));
  }

  private static boolean isAmong(Value value, List<Option> options) {
    return options.stream().anyMatch(option -> option.value().equals(value));
  }

  // Another kind would change what every rule that uses the setting means.
  private Optional<Value> option(Scalar text, Optional<Value> value) {
    if (value.isPresent() && value.get() instanceof Figure figure) {
      return texts.quantity(text, figure.quantity().kind()).map(Figure::new);
    } else if (value.isPresent()) {
      return texts.isName(text) ? Optional.of(new Word(text.value())) : Optional.empty();
    }
    return value(text);
  }

  private Optional<Value> value(Scalar text) {
    boolean word = ScalarParser.matches(text, "[A-Za-z][A-Za-z0-9_]*");
    if (word) {
      return texts.isName(text) ? Optional.of(new Word(text.value())) : Optional.empty();
    }
    return texts.quantity(text).map(Figure::new);
  }
}
