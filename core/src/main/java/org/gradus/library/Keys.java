package org.gradus.library;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.diagnostic.Suggestion;
import org.gradus.library.YamlNode.Entry;
import org.gradus.library.YamlNode.Mapping;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.library.YamlNode.Sequence;
import org.gradus.rule.syntax.RuleText;

/**
 * The keys of a mapping, taken one by one by the reader that knows them. What nobody has taken in
 * the end is unknown, so that a reader and its list of keys cannot drift apart.
 */
final class Keys {

  private final Mapping mapping;
  private final String what;
  private final Problems problems;
  private final Map<String, Entry> left = new LinkedHashMap<>();
  private final Set<String> known = new TreeSet<>();

  private Keys(Mapping mapping, String what, Problems problems) {
    this.mapping = mapping;
    this.what = what;
    this.problems = problems;
    mapping.entries().forEach(entry -> left.putIfAbsent(entry.key().value(), entry));
  }

  /** The keys of a node that should have some; {@code what} names it in messages: "a stage". */
  static Optional<Keys> of(YamlNode node, String what, Problems problems) {
    if (node instanceof Mapping mapping) {
      return Optional.of(new Keys(mapping, what, problems));
    }
    problems.add(
        node.span(), Code.G304, "keys with values for " + what, node.phrase(), "write key: value");
    return Optional.empty();
  }

  Span span() {
    return mapping.span();
  }

  String what() {
    return what;
  }

  Optional<YamlNode> take(String key) {
    known.add(key);
    return Optional.ofNullable(left.remove(key)).map(Entry::value);
  }

  Optional<YamlNode> need(String key) {
    Optional<YamlNode> value = take(key);
    if (value.isEmpty()) {
      problems.add(start(), Code.G303, what, key);
    }
    return value;
  }

  private Span start() {
    Span whole = mapping.span();
    return mapping.entries().isEmpty() ? whole : mapping.entries().get(0).key().span();
  }

  Optional<Scalar> text(String key) {
    return take(key).flatMap(node -> scalar(node, key));
  }

  Optional<Scalar> needText(String key) {
    return need(key).flatMap(node -> scalar(node, key));
  }

  private Optional<Scalar> scalar(YamlNode node, String key) {
    if (node instanceof Scalar scalar && !scalar.value().isBlank()) {
      return Optional.of(scalar);
    }
    boolean splitRule =
        node instanceof Mapping inner
            && inner.entries().stream().anyMatch(entry -> isRuleText(entry.key()));
    if (splitRule) {
      problems.add(
          node.span(),
          Code.G311,
          "a colon has made keys out of this text",
          "put the text in quotes, or on a line of its own after |-");
    } else {
      problems.add(
          node.span(), Code.G304, "a text for " + key, node.phrase(), "write " + key + ": text");
    }
    return Optional.empty();
  }

  private static boolean isRuleText(Scalar key) {
    return RuleText.isActionWord(key.value().split("\\s", 2)[0]);
  }

  /** The items of a list; a single item may stand without one. */
  List<YamlNode> items(String key) {
    return take(key).map(Keys::itemsOf).orElse(List.of());
  }

  static List<YamlNode> itemsOf(YamlNode node) {
    return node instanceof Sequence sequence ? sequence.items() : List.of(node);
  }

  /** The texts of a list; a single text may stand without one. */
  List<Scalar> texts(String key) {
    List<Scalar> texts = new ArrayList<>();
    items(key).forEach(item -> scalar(item, key).ifPresent(texts::add));
    return texts;
  }

  /** The entries under a key, in the order of the file. */
  List<Entry> entries(String key) {
    Optional<YamlNode> node = take(key);
    if (node.isPresent() && !(node.get() instanceof Mapping)) {
      problems.add(
          node.get().span(),
          Code.G304,
          "names with values for " + key,
          node.get().phrase(),
          "write name: value");
    }
    return node.filter(Mapping.class::isInstance)
        .map(found -> ((Mapping) found).entries())
        .orElse(List.of());
  }

  Optional<Keys> keys(String key, String inner) {
    return take(key).flatMap(node -> of(node, inner, problems));
  }

  /** Reports the keys nobody has taken. */
  void done() {
    for (Entry entry : left.values()) {
      String key = entry.key().value();
      boolean cut =
          mapping.flow()
              && entry.value() instanceof Scalar value
              && value.plain()
              && value.value().isEmpty();
      if (cut) {
        problems.add(
            entry.key().span(),
            Code.G311,
            "a comma has cut this text off from the one before",
            "put the whole text in quotes, or write the item over several lines");
      } else if (RuleText.isActionWord(key.split("\\s", 2)[0])) {
        problems.add(
            entry.key().span(),
            Code.G311,
            "a rule stands here as a key",
            "write rule: " + key + " ...");
      } else {
        problems.add(
            entry.key().span(),
            Code.G302,
            key,
            what,
            Suggestion.help(key, known, "the keys are " + String.join(", ", known)));
      }
    }
  }
}
