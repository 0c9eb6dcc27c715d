package org.gradus.library;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Problems.Misspelt;
import org.gradus.diagnostic.Span;
import org.gradus.library.YamlNode.Entry;
import org.gradus.library.YamlNode.Mapping;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.library.YamlNode.Sequence;

/** Which keys of some files are misspelt, and what was meant by them. Immutable. */
final class Spelling {

  /** No key is misspelt. */
  static final Spelling AS_WRITTEN = new Spelling(Map.of());

  private final Map<Span, Misspelt> slips;

  private Spelling(Map<Span, Misspelt> slips) {
    this.slips = slips;
  }

  /** With further keys. */
  Spelling with(List<Misspelt> further) {
    Map<Span, Misspelt> all = new LinkedHashMap<>(slips);
    further.forEach(slip -> all.putIfAbsent(slip.diagnostic().where(), slip));
    return new Spelling(all);
  }

  /** Says what is misspelt. */
  void report(Problems problems) {
    slips.values().forEach(slip -> problems.add(slip.diagnostic()));
  }

  /** What was meant. Of two keys that would be the same, the second stays as it is written. */
  YamlNode asMeant(YamlNode node) {
    if (slips.isEmpty()) {
      return node;
    } else if (node instanceof Mapping mapping) {
      List<Entry> entries = new ArrayList<>();
      Set<String> names =
          mapping.entries().stream().map(entry -> entry.key().value()).collect(Collectors.toSet());
      for (Entry entry : mapping.entries()) {
        Scalar key = entry.key();
        Optional<String> meant =
            Optional.ofNullable(slips.get(key.span())).map(Misspelt::meant).filter(names::add);
        entries.add(
            new Entry(
                new Scalar(key.span(), meant.orElse(key.value()), key.plain()),
                asMeant(entry.value())));
      }
      return new Mapping(mapping.span(), entries, mapping.flow());
    } else if (node instanceof Sequence list) {
      return new Sequence(list.span(), list.items().stream().map(this::asMeant).toList());
    }
    return node;
  }
}
