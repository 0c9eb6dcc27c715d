package org.gradus.library;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.diagnostic.Suggestion;
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
    String language,
    Map<String, Citation> sources,
    boolean sourcesRead) {

  private static final List<String> KINDS =
      List.of("protocol", "rules", "equations", "norms", "intensity", "words");

  /** The newest {@code format: 1.n} this reader knows. */
  private static final int NEWEST_MINOR = 0;

  /**
   * Reads it; gives nothing when the rest of the file cannot be understood without what is wrong.
   */
  static Optional<Header> read(Keys keys, Problems problems) {
    boolean known = keys.needText("format").filter(format -> isKnown(format, problems)).isPresent();
    Optional<Scalar> kind = keys.needText("kind").filter(text -> isKind(text, problems));
    Optional<Scalar> id = keys.needText("id").filter(text -> isId(text, problems));
    Optional<Scalar> version = keys.needText("version").filter(text -> isVersion(text, problems));
    Optional<Scalar> title = keys.needText("title");
    Optional<Scalar> language = keys.text("language").filter(text -> isLanguage(text, problems));
    List<String> unread = new ArrayList<>();
    Map<String, Citation> sources = sources(keys, unread, problems);
    boolean sourcesRead = unread.isEmpty() && !keys.misspelt().contains("sources");
    if (!known || kind.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new Header(
            kind.get().value(),
            ScalarParser.string(id),
            id.map(Scalar::span).orElse(keys.start()),
            ScalarParser.string(version),
            ScalarParser.string(title),
            language.map(Scalar::value).orElse("en"),
            sources,
            sourcesRead));
  }

  private static boolean isKind(Scalar kind, Problems problems) {
    boolean known = KINDS.contains(kind.value());
    if (!known) {
      problems.add(
          kind.span(),
          Code.G305,
          kind.value(),
          "one of " + String.join(", ", KINDS),
          kind.value().equals("cases")
              ? "a file of cases is run and not loaded; call it NAME.cases.yaml"
              : Suggestion.help(kind.value(), KINDS, "choose one of them"));
    }
    return known;
  }

  private static boolean isLanguage(Scalar language, Problems problems) {
    boolean sound = ScalarParser.matches(language, "[a-z]{2,3}(-[A-Za-z0-9]{2,8})*");
    if (!sound) {
      problems.add(
          language.span(), Code.G305, language.value(), "a language", "write its code, as in en");
    }
    return sound;
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
    boolean sound = ScalarParser.matches(id, "[a-z0-9]+([-.][a-z0-9]+)*");
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
    boolean sound = version.value().matches("[0-9]{1,9}\\.[0-9]{1,9}\\.[0-9]{1,9}");
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

  private static Map<String, Citation> sources(Keys keys, List<String> unread, Problems problems) {
    Map<String, Citation> sources = new LinkedHashMap<>();
    int before = problems.count();
    List<Entry> entries = keys.entries("sources");
    if (problems.count() > before) {
      unread.add("sources");
    }
    for (Entry entry : entries) {
      String key = entry.key().value();
      Optional<Scalar> text = keys.scalar(entry.value(), key);
      text.ifPresent(citation -> sources.put(key, new Citation(key, citation.value().strip())));
      if (text.isEmpty()) {
        unread.add(key);
      }
    }
    return sources;
  }

  List<Citation> citations() {
    return List.copyOf(sources.values());
  }
}
