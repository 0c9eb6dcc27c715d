package org.gradus.library;

import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.knowledge.Citation;
import org.gradus.library.YamlNode.Scalar;

/** The sources of one file, found by the key under which an item names its own. */
final class Sources {

  private final Map<String, Citation> listed;
  private final boolean listRead;
  private final Problems problems;

  Sources(Header header, Problems problems) {
    this.listed = Map.copyOf(header.sources());
    this.listRead = header.sourcesRead();
    this.problems = problems;
  }

  /** A source by its key; none when it is not given. */
  Citation of(Optional<Scalar> key) {
    return key.map(this::of).orElse(Citation.NONE);
  }

  /** A source with what the file remarks on it. */
  Citation of(Keys keys) {
    return noted(of(keys.text("source")), keys);
  }

  /** As {@link #of(Keys)}, where a figure may not stand without one. */
  Citation needed(Keys keys) {
    return noted(of(keys.needText("source")), keys);
  }

  private Citation of(Scalar key) {
    String name = key.value().strip();
    if (name.equals(Citation.PRACTICE.key())) {
      return Citation.PRACTICE;
    }
    Citation source = listed.get(name);
    // Of a list that could not be read anything may have been lost.
    if (source == null && listRead) {
      problems.add(key.span(), Code.G309, "source", name, help(name));
    }
    return source == null ? Citation.NONE : source;
  }

  private String help(String name) {
    String keys =
        problems.isFull()
            ? "others"
            : listed.keySet().stream().sorted().collect(Collectors.joining(", "));
    String others = listed.isEmpty() ? "" : "; there are " + keys;
    return problems.help(name, listed.keySet(), "add it under sources, or write practice" + others);
  }

  private static Citation noted(Citation source, Keys keys) {
    String note = ScalarParser.string(keys.text("note"));
    return note.isEmpty() ? source : new Citation(source.key(), source.text() + " (" + note + ")");
  }
}
