package org.gradus.library;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.knowledge.Citation;
import org.gradus.library.YamlNode.Entry;
import org.gradus.library.YamlNode.Scalar;

/** What stands at the top of every file. */
record Header(
    String kind,
    String id,
    Span where,
    String version,
    String title,
    Map<String, Citation> sources) {

  /** The newest {@code format: 1.n} this reader knows. */
  private static final int NEWEST_MINOR = 0;

  static Optional<Header> read(Keys keys, Problems problems) {
    boolean known = keys.needText("format").filter(format -> isKnown(format, problems)).isPresent();
    Optional<Scalar> kind = keys.needText("kind");
    Optional<Scalar> id = keys.needText("id").filter(text -> isId(text, problems));
    Optional<Scalar> version = keys.needText("version").filter(text -> isVersion(text, problems));
    Optional<Scalar> title = keys.needText("title");
    keys.text("language");
    Map<String, Citation> sources = sources(keys, problems);
    if (!known || kind.isEmpty() || id.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new Header(
            kind.get().value(),
            id.get().value(),
            id.get().span(),
            Texts.string(version),
            Texts.string(title),
            sources));
  }

  private static boolean isKnown(Scalar format, Problems problems) {
    boolean sound = format.value().matches("1|1\\.[0-9]{1,4}");
    boolean known =
        sound
            && (format.value().equals("1")
                || Integer.parseInt(format.value().substring(2)) <= NEWEST_MINOR);
    if (!known) {
      problems.add(format.span(), Code.G310, format.value(), "1." + NEWEST_MINOR);
    }
    return known;
  }

  private static boolean isId(Scalar id, Problems problems) {
    boolean sound = id.value().matches("[a-z0-9]+(-[a-z0-9.]+)*");
    if (!sound) {
      problems.add(
          id.span(),
          Code.G305,
          id.value(),
          "an id",
          "use lower-case words joined by -, as in graded-walk-standard");
    }
    return sound;
  }

  private static boolean isVersion(Scalar version, Problems problems) {
    boolean sound = version.value().matches("[0-9]+\\.[0-9]+\\.[0-9]+");
    if (!sound) {
      problems.add(
          version.span(),
          Code.G305,
          version.value(),
          "a version",
          "write three numbers, as in 1.0.0");
    }
    return sound;
  }

  private static Map<String, Citation> sources(Keys keys, Problems problems) {
    Map<String, Citation> sources = new LinkedHashMap<>();
    for (Entry entry : keys.entries("sources")) {
      String key = entry.key().value();
      if (entry.value() instanceof Scalar text && !text.value().isBlank()) {
        sources.put(key, new Citation(key, text.value().strip()));
      } else {
        problems.add(
            entry.value().span(),
            Code.G304,
            "a citation",
            entry.value().phrase(),
            "write " + key + ": authors, journal, year, pages");
      }
    }
    return sources;
  }

  List<Citation> citations() {
    return List.copyOf(sources.values());
  }
}
