package org.gradus.library;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.knowledge.Citation;
import org.gradus.library.YamlNode.Entry;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.protocol.Setting;
import org.gradus.protocol.Setting.Option;
import org.gradus.protocol.Setting.Value;
import org.gradus.rule.syntax.RuleText.QuantityRange;

/** Reads settings: a value with the printed options or the range it may be changed to. */
final class SettingReader {

  private final Texts texts;

  SettingReader(Texts texts) {
    this.texts = texts;
  }

  void read(List<Entry> entries, Map<String, Placed<Setting>> settings) {
    for (Entry entry : entries) {
      if (texts.isName(entry.key())) {
        Keys.of(entry.value(), "a setting", texts.problems())
            .flatMap(keys -> setting(entry.key().value(), keys))
            .ifPresent(
                setting -> settings.put(setting.name(), new Placed<>(entry.key().span(), setting)));
      }
    }
  }

  private Optional<Setting> setting(String name, Keys keys) {
    Optional<Scalar> text = keys.needText("value");
    Optional<Value> value = text.flatMap(this::value);
    List<Option> options = new ArrayList<>();
    for (YamlNode item : keys.items("options")) {
      Keys.of(item, "an option", texts.problems()).flatMap(this::option).ifPresent(options::add);
    }
    Optional<QuantityRange> range = keys.text("range").flatMap(texts::range);
    Citation own =
        RuleReader.withNote(texts.source(keys.text("source")), Texts.string(keys.text("note")));
    keys.done();
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
    return isSound(setting, text.orElseThrow()) ? Optional.of(setting) : Optional.empty();
  }

  private Optional<Option> option(Keys keys) {
    Optional<Value> value = keys.needText("value").flatMap(this::value);
    String note = Texts.string(keys.text("note"));
    Citation source = RuleReader.withNote(texts.source(keys.text("source")), note);
    keys.done();
    return value.map(found -> new Option(found, source, note));
  }

  private Optional<Value> value(Scalar text) {
    boolean word = text.value().matches("[A-Za-z][A-Za-z0-9_]*");
    return word
        ? Optional.of(new Setting.Word(text.value()))
        : texts.quantity(text).map(Setting.Figure::new);
  }

  private boolean isSound(Setting setting, Scalar text) {
    if (!setting.isConsistent()) {
      texts.notA(text, "among what this setting allows", "the file allows " + setting.allowed());
    }
    return setting.isConsistent();
  }
}
