package org.gradus.library;

import static java.util.Objects.requireNonNull;

import java.util.List;
import org.gradus.diagnostic.Span;

/** A piece of a YAML file that knows its place, for readers of any kind of file. */
public sealed interface YamlNode {

  /** Where it stands. */
  Span span();

  /** What it is, for messages. */
  String phrase();

  /**
   * A text.
   *
   * @param span the characters of the text itself, without quotes or block marks
   * @param value what YAML makes of them
   * @param plain whether it stands without quotes, on its own
   */
  record Scalar(Span span, String value, boolean plain) implements YamlNode {
    public Scalar {
      requireNonNull(span, "span");
      requireNonNull(value, "value");
    }

    @Override
    public String phrase() {
      return value.isEmpty() ? "nothing" : "a text";
    }
  }

  /**
   * Keys with values.
   *
   * @param span where it stands
   * @param entries the keys with their values
   * @param flow whether it is written with curly brackets
   */
  record Mapping(Span span, List<Entry> entries, boolean flow) implements YamlNode {
    public Mapping {
      requireNonNull(entries, "entries");
      requireNonNull(span, "span");
    }

    @Override
    public String phrase() {
      return "keys with values";
    }
  }

  /**
   * A key with its value.
   *
   * @param key the key
   * @param value what stands under it
   */
  record Entry(Scalar key, YamlNode value) {
    public Entry {
      requireNonNull(key, "key");
      requireNonNull(value, "value");
    }
  }

  /**
   * A list.
   *
   * @param span where it stands
   * @param items its items
   */
  record Sequence(Span span, List<YamlNode> items) implements YamlNode {
    public Sequence {
      requireNonNull(items, "items");
      requireNonNull(span, "span");
    }

    @Override
    public String phrase() {
      return "a list";
    }
  }

  /**
   * Something that was refused. Why has been noted, so that nobody need speak of it again.
   *
   * @param span where it stands
   */
  record Lost(Span span) implements YamlNode {
    public Lost {
      requireNonNull(span, "span");
    }

    @Override
    public String phrase() {
      return "nothing that can be used";
    }
  }
}
