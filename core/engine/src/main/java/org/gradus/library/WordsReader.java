package org.gradus.library;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.SourceFile;
import org.gradus.diagnostic.Suggestion;
import org.gradus.library.YamlNode.Entry;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.words.Language;

/**
 * Reads a file of words: what other files say, in another language. It is read after them, so that
 * a word whose original is gone or was changed is found. Such a word is left over and stops
 * nothing: a protocol must not cease to load because one of its sentences was improved.
 */
final class WordsReader {

  private static final Set<String> OF_PROTOCOLS = Set.of("protocol", "rules");
  private static final Pattern NAME = Pattern.compile("[A-Za-z_][A-Za-z0-9_.-]*");

  private final Problems problems;
  private final Problems leftOver;
  private final Shelf shelf;
  private final Header header;

  WordsReader(Shelf shelf, Header header, Problems problems, Problems leftOver) {
    this.leftOver = leftOver;
    this.shelf = shelf;
    this.header = header;
    this.problems = problems;
  }

  void read(Keys keys) {
    Set<SourceFile> of = new LinkedHashSet<>();
    boolean everywhere = false;
    Set<String> texts = new HashSet<>();
    Set<String> names = new HashSet<>();
    for (Scalar file : keys.needTexts("for")) {
      Optional<Keys> original = Optional.ofNullable(shelf.contents.get(file.value()));
      if (original.isEmpty()) {
        missing(file, "file", shelf.contents.keySet());
      }
      if (original.isPresent()) {
        Keys content = original.get();
        of.add(content.start().file());
        everywhere |= !OF_PROTOCOLS.contains(shelf.kinds.getOrDefault(file.value(), ""));
        content.everyText().forEach(text -> add(text, texts, names));
      }
    }
    language();
    Map<String, String> ofNames = translated(keys, "names", "name", names);
    Map<String, String> ofTexts = translated(keys, "texts", "text", texts);
    keys.done();
    shelf.translations.add(
        new TranslatedWords(of, everywhere, header.language(), ofNames, ofTexts));
  }

  private static void add(Scalar text, Set<String> texts, Set<String> names) {
    texts.add(text.value().strip());
    NAME.matcher(text.value()).results().map(found -> found.group()).forEach(names::add);
  }

  private void language() {
    List<String> known = Language.all().stream().map(Locale::getLanguage).toList();
    if (!known.contains(header.language()) || header.language().equals("en")) {
      problems.add(
          header.where(),
          Code.G305,
          header.language(),
          "a language that words can be in",
          "write language: " + String.join(" or language: ", known.subList(1, known.size())));
    }
  }

  private Map<String, String> translated(Keys keys, String key, String what, Set<String> known) {
    Map<String, String> words = new LinkedHashMap<>();
    for (Entry entry : keys.entries(key)) {
      Optional<Scalar> translation = keys.scalar(entry.value(), entry.key().value());
      boolean there = known.isEmpty() || known.contains(entry.key().value().strip());
      if (!there) {
        missing(entry.key(), what, known);
      }
      translation.ifPresent(text -> words.put(entry.key().value().strip(), text.value().strip()));
    }
    return words;
  }

  private void missing(Scalar of, String what, Set<String> known) {
    List<String> near = new ArrayList<>(known);
    leftOver.add(
        of.span(),
        Code.G309,
        what,
        of.value(),
        Suggestion.help(
            of.value(),
            near.stream()
                .filter(
                    one -> Math.abs(one.length() - of.value().length()) <= of.value().length() / 3)
                .collect(Collectors.toSet()),
            what.equals("file")
                ? "name the id of a file in this library"
                : "write it exactly as one of the files under for: has it, or leave it out"));
  }
}
