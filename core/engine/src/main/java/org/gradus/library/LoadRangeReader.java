package org.gradus.library;

import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.knowledge.Citation;
import org.gradus.library.YamlNode.Entry;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.protocol.LoadRange;
import org.gradus.unit.Kind;
import org.gradus.unit.QuantityRange;
import org.gradus.unit.Unit;

/** Reads what the components of a load can be. */
final class LoadRangeReader {

  private final Texts texts;

  LoadRangeReader(Texts texts) {
    this.texts = texts;
  }

  void read(List<Entry> entries, Draft draft) {
    for (Entry entry : entries) {
      String name = entry.key().value();
      Optional<Kind> kind = Optional.ofNullable(LoadReader.RANGED.get(name));
      if (kind.isEmpty()) {
        unknown(entry.key());
      }
      kind.flatMap(of -> range(name, of, entry.value()))
          .ifPresent(range -> draft.loads.put(name, new Placed<>(entry.key().span(), range)));
    }
  }

  private void unknown(Scalar key) {
    String otherwise = "the loads are " + String.join(", ", LoadReader.RANGED.keySet());
    String help = texts.problems().help(key.value(), LoadReader.RANGED.keySet(), otherwise);
    texts.problems().add(key.span(), Code.G309, "load", key.value(), help);
  }

  private Optional<LoadRange> range(String name, Kind kind, YamlNode value) {
    return Keys.of(value, "the range of a load", texts.problems())
        .flatMap(
            keys -> {
              Optional<QuantityRange> range =
                  keys.needText("range").flatMap(text -> range(text, kind));
              Citation source = texts.source(keys);
              keys.done();
              return range.map(ends -> new LoadRange(name, ends, source));
            });
  }

  // A slope may lead downhill; nothing else that is set can be below zero.
  private Optional<QuantityRange> range(Scalar text, Kind kind) {
    Optional<QuantityRange> range = texts.range(text, kind);
    boolean slope = kind == Kind.NUMBER;
    if (slope && range.filter(ends -> !isShare(ends)).isPresent()) {
      texts.notA(text, "a range in %", "write both ends with %");
      return Optional.empty();
    } else if (!slope && range.filter(ends -> ends.low().base() < 0).isPresent()) {
      texts.notA(text, "a range from zero up", "write it without the sign");
      return Optional.empty();
    }
    return range;
  }

  private static boolean isShare(QuantityRange ends) {
    return ends.low().unit() == Unit.PERCENT && ends.high().unit() == Unit.PERCENT;
  }
}
