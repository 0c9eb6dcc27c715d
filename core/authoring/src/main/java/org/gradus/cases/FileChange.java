package org.gradus.cases;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.SourceFile;
import org.gradus.diagnostic.Span;
import org.gradus.library.Keys;
import org.gradus.library.Library;
import org.gradus.library.YamlNode;
import org.gradus.library.YamlNode.Entry;
import org.gradus.library.YamlNode.Mapping;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.library.YamlNode.Sequence;

/**
 * Changes single values of a protocol's file. The way to a value goes by keys; of a list, by the id
 * of the item or its number from 1: {@code stages.walk_2.grade}, {@code stage_end.next.rule}.
 */
final class FileChange {

  private final List<SourceFile> files;
  private final String protocol;

  private FileChange(List<SourceFile> files, String protocol) {
    this.files = files;
    this.protocol = protocol;
  }

  /** The files of a library with changes; nothing when there is no value at the end of a way. */
  static Optional<List<SourceFile>> of(
      Library library, String protocol, Map<String, String> changes) {
    List<SourceFile> files = new ArrayList<>(library.files());
    for (Map.Entry<String, String> change : changes.entrySet()) {
      Optional<List<SourceFile>> changed =
          new FileChange(files, protocol).changed(change.getKey(), change.getValue());
      if (changed.isEmpty()) {
        return Optional.empty();
      }
      files = new ArrayList<>(changed.get());
    }
    return Optional.of(files);
  }

  private Optional<List<SourceFile>> changed(String way, String text) {
    for (int i = 0; i < files.size(); i++) {
      Optional<Keys> keys = Keys.of(files.get(i), new Problems());
      boolean own =
          keys.filter(found -> isText(found, "kind", "protocol"))
              .filter(found -> isText(found, "id", protocol))
              .isPresent();
      if (own) {
        Optional<Span> where = keys.flatMap(found -> value(found, way));
        int place = i;
        return where.map(span -> replaced(place, span, text));
      }
    }
    return Optional.empty();
  }

  private static boolean isText(Keys keys, String key, String text) {
    return keys.text(key).filter(found -> found.value().equals(text)).isPresent();
  }

  private static Optional<Span> value(Keys keys, String way) {
    String[] parts = way.split("\\.", -1);
    Optional<YamlNode> node = keys.take(parts[0]);
    for (int i = 1; i < parts.length && node.isPresent(); i++) {
      node = child(node.get(), parts[i]);
    }
    // A definition may be written out with its source.
    Optional<YamlNode> plain =
        node.flatMap(
            found -> found instanceof Mapping ? child(found, "value") : Optional.of(found));
    return plain.filter(Scalar.class::isInstance).map(YamlNode::span);
  }

  private static Optional<YamlNode> child(YamlNode node, String name) {
    if (node instanceof Mapping mapping) {
      return mapping.entries().stream()
          .filter(entry -> entry.key().value().equals(name))
          .map(Entry::value)
          .findFirst();
    } else if (node instanceof Sequence sequence) {
      if (name.matches("[0-9]{1,3}") && Integer.parseInt(name) <= sequence.items().size()) {
        return Optional.of(sequence.items().get(Integer.parseInt(name) - 1));
      }
      return sequence.items().stream()
          .filter(item -> child(item, "id").filter(id -> isScalar(id, name)).isPresent())
          .findFirst();
    }
    return Optional.empty();
  }

  private static boolean isScalar(YamlNode node, String text) {
    return node instanceof Scalar scalar && scalar.value().equals(text);
  }

  // The new text stands in quotes where the old one stood without, so that YAML takes it whole.
  private List<SourceFile> replaced(int place, Span where, String text) {
    SourceFile file = files.get(place);
    String before = file.text().substring(0, where.start());
    boolean quoted = before.endsWith("\"") || before.endsWith("'");
    boolean block = before.stripTrailing().matches("(?s).*[|>][-+]?");
    String put =
        quoted || block ? text : "\"" + text.replace("\\", "\\\\").replace("\"", "\\\"") + "\"";
    List<SourceFile> changed = new ArrayList<>(files);
    changed.set(
        place, SourceFile.of(file.name(), before + put + file.text().substring(where.end())));
    return changed;
  }
}
