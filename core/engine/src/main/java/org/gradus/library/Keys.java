package org.gradus.library;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Problems.Misspelt;
import org.gradus.diagnostic.SourceFile;
import org.gradus.diagnostic.Span;
import org.gradus.diagnostic.Suggestion;
import org.gradus.library.YamlNode.Entry;
import org.gradus.library.YamlNode.Lost;
import org.gradus.library.YamlNode.Mapping;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.library.YamlNode.Sequence;
import org.gradus.rule.syntax.RuleText;

/**
 * The keys of a mapping, taken one by one by the reader that knows them. A key that no reader has
 * taken is unknown, so that a reader and its list of keys cannot drift apart.
 */
public final class Keys {

  /** What the keys at the top of a file are called. */
  static final String OF_A_FILE = "the file";

  private final Mapping mapping;
  private final String what;
  private final Problems problems;
  private final Map<String, Entry> left = new LinkedHashMap<>();
  private final Set<String> known = new TreeSet<>();
  private final Set<String> missing = new LinkedHashSet<>();
  private boolean unread;

  private Keys(Mapping mapping, String what, Problems problems) {
    this.mapping = mapping;
    this.what = what;
    this.problems = problems;
    mapping.entries().forEach(entry -> left.put(entry.key().value(), entry));
  }

  /** The keys of a node that should have some; {@code what} names it in messages: "a stage". */
  public static Optional<Keys> of(YamlNode node, String what, Problems problems) {
    requireNonNull(problems, "problems");
    requireNonNull(what, "what");
    if (node instanceof Mapping mapping) {
      return Optional.of(new Keys(mapping, what, problems));
    }
    if (!(node instanceof Lost)) {
      problems.add(
          node.span(),
          Code.G304,
          "keys with values for " + what,
          node.phrase(),
          "write key: value");
    }
    return Optional.empty();
  }

  /** The keys of a whole file, if it can be read; what is wrong with it is noted. */
  public static Optional<Keys> of(SourceFile file, Problems problems) {
    requireNonNull(problems, "problems");
    return YamlReader.read(file, problems).flatMap(content -> of(content, OF_A_FILE, problems));
  }

  /** The entries nobody has taken, which are then taken. */
  public List<Entry> rest() {
    List<Entry> rest = List.copyOf(left.values());
    left.clear();
    return rest;
  }

  /** What stands under a key, which is then taken. */
  public Optional<YamlNode> take(String key) {
    known.add(key);
    return Optional.ofNullable(left.remove(key)).map(Entry::value);
  }

  /** As {@link #take}, of a key without which nothing can be done; {@link #done} reports it. */
  Optional<YamlNode> need(String key) {
    Optional<YamlNode> value = take(key);
    if (value.isEmpty()) {
      missing.add(key);
    }
    return value;
  }

  /** Where the first key stands. */
  public Span start() {
    Span whole = mapping.span();
    return mapping.entries().isEmpty() ? whole : mapping.entries().get(0).key().span();
  }

  /** Where a key stands, if it is there. */
  Optional<Span> place(String key) {
    return mapping.entries().stream()
        .filter(entry -> entry.key().value().equals(key))
        .map(entry -> entry.key().span())
        .findFirst();
  }

  /** The text under a key. */
  public Optional<Scalar> text(String key) {
    return take(key).flatMap(node -> scalar(node, key));
  }

  /** The text under a key that must be there. */
  public Optional<Scalar> needText(String key) {
    return need(key).flatMap(node -> scalar(node, key));
  }

  /** A value that should be a text; notes it when it is not. */
  public Optional<Scalar> scalar(YamlNode node, String key) {
    if (node instanceof Scalar scalar && !scalar.value().isBlank()) {
      return Optional.of(scalar);
    } else if (node instanceof Lost) {
      return Optional.empty();
    }
    boolean splitRule =
        node instanceof Mapping inner
            && inner.entries().stream().anyMatch(entry -> isRule(entry.key().value()));
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

  private static boolean isRule(String key) {
    return RuleText.isActionWord(key.split("\\s", 2)[0]);
  }

  /** The items of a list; a single item may stand without one. */
  public List<YamlNode> items(String key) {
    return take(key).map(Keys::itemsOf).orElse(List.of());
  }

  static List<YamlNode> itemsOf(YamlNode node) {
    return node instanceof Sequence sequence ? sequence.items() : List.of(node);
  }

  /** The texts of a list; a single text may stand without one. */
  public List<Scalar> texts(String key) {
    List<Scalar> texts = new ArrayList<>();
    items(key).forEach(item -> scalar(item, key).ifPresent(texts::add));
    return texts;
  }

  /** As {@link #texts}, of a key that must be there. */
  List<Scalar> needTexts(String key) {
    List<Scalar> texts = new ArrayList<>();
    need(key)
        .map(Keys::itemsOf)
        .ifPresent(items -> items.forEach(item -> scalar(item, key).ifPresent(texts::add)));
    return texts;
  }

  /** The text under a key, without taking it. */
  public Optional<String> peek(String key) {
    return seen(key).map(Scalar::value);
  }

  /** As {@link #peek}, with its place. */
  Optional<Scalar> seen(String key) {
    return mapping.entries().stream()
        .filter(entry -> entry.key().value().equals(key))
        .map(Entry::value)
        .filter(Scalar.class::isInstance)
        .map(Scalar.class::cast)
        .findFirst();
  }

  /** The entries under a key, without taking them. */
  List<Entry> seenEntries(String key) {
    return mapping.entries().stream()
        .filter(entry -> entry.key().value().equals(key))
        .map(Entry::value)
        .filter(Mapping.class::isInstance)
        .flatMap(found -> ((Mapping) found).entries().stream())
        .toList();
  }

  /** Every text of the file from here on, keys among them, without taking any. */
  List<Scalar> everyText() {
    List<Scalar> texts = new ArrayList<>();
    collect(mapping, texts);
    return texts;
  }

  private static void collect(YamlNode node, List<Scalar> texts) {
    if (node instanceof Scalar text) {
      texts.add(text);
    } else if (node instanceof Sequence list) {
      list.items().forEach(item -> collect(item, texts));
    } else if (node instanceof Mapping inner) {
      for (Entry entry : inner.entries()) {
        texts.add(entry.key());
        collect(entry.value(), texts);
      }
    }
  }

  /** Whether a key stands here. */
  public boolean has(String key) {
    return mapping.entries().stream().anyMatch(entry -> entry.key().value().equals(key));
  }

  /** The entries under a key, in the order of the file. */
  public List<Entry> entries(String key) {
    Optional<YamlNode> node = take(key);
    unread |= node.filter(found -> !(found instanceof Mapping)).isPresent();
    if (node.isPresent() && !(node.get() instanceof Mapping) && !(node.get() instanceof Lost)) {
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

  /** The keys under a key; {@code inner} names them in messages. */
  public Optional<Keys> keys(String key, String inner) {
    return take(key).flatMap(node -> of(node, inner, problems));
  }

  /** Reports the keys nobody has taken, and those that are missing and were not just misspelt. */
  public void done() {
    boolean rule = false;
    for (Entry entry : left.values()) {
      String key = entry.key().value();
      if (isRule(key) && !known.contains(key)) {
        rule = true;
        problems.add(
            entry.key().span(),
            Code.G311,
            "a rule stands here as a key",
            "write rule: " + key + " ..., without a colon inside");
      } else {
        unknown(entry.key());
      }
    }
    if (!rule) {
      missing.removeAll(misspelt());
      missing.forEach(key -> problems.add(start(), Code.G303, what, key));
    }
  }

  /** Reports only what is missing: the reader has given up before it knew what else may be here. */
  void giveUp() {
    Set<String> misspelt = misspelt();
    left.values().stream()
        .map(Entry::key)
        .filter(key -> nearest(key.value()).filter(missing::contains).isPresent())
        .forEach(this::unknown);
    missing.removeAll(misspelt);
    missing.forEach(key -> problems.add(start(), Code.G303, what, key));
  }

  /**
   * The keys that should be here and stand here in another spelling, so that they were not read.
   */
  Set<String> misspelt() {
    Set<String> misspelt = new TreeSet<>();
    left.keySet().forEach(key -> nearest(key).ifPresent(misspelt::add));
    mapping.entries().forEach(entry -> misspelt.remove(entry.key().value()));
    return misspelt;
  }

  /** Whether something is here that was not read, so that what is not found may be in it. */
  boolean isTorn() {
    return unread || !misspelt().isEmpty();
  }

  private Optional<String> nearest(String key) {
    return Suggestion.nearest(key, known);
  }

  private void unknown(Scalar key) {
    String otherwise = "the keys are " + String.join(", ", known);
    Diagnostic unknown =
        Diagnostic.at(
            key.span(),
            Code.G302,
            key.value(),
            what,
            Suggestion.help(key.value(), known, otherwise));
    nearest(key.value())
        .filter(meant -> !has(meant))
        .ifPresentOrElse(
            meant -> problems.add(new Misspelt(unknown, meant)), () -> problems.add(unknown));
  }

  /** Reports a key that belongs elsewhere. */
  void misplaced(String key, String help) {
    Entry entry = left.remove(key);
    if (entry != null) {
      problems.add(entry.key().span(), Code.G302, key, what, help);
    }
  }

  /** Reports a key that is known here but says nothing in this place. */
  void idle(String key, String place, String help) {
    mapping.entries().stream()
        .filter(entry -> entry.key().value().equals(key))
        .forEach(entry -> problems.add(entry.key().span(), Code.G302, key, place, help));
  }
}
