package org.gradus.history;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.BiFunction;
import java.util.function.Function;
import org.gradus.unit.Quantity;

/**
 * How values of a type stand in JSON: one table from which they are written, read and described.
 * What is read is checked; whatever does not fit is {@link Unreadable}.
 *
 * @param <T> the type
 */
abstract class Form<T> {

  static final Form<String> TEXT = plain(Fields::text, schema("string"));
  static final Form<Integer> WHOLE = plain(Fields::whole, schema("integer"));
  static final Form<Boolean> TRUTH = plain(Fields::truth, schema("boolean"));

  /** Any finite number. */
  static final Form<Double> NUMBER = plain(Fields::finite, schema("number"));

  /** A time since the start of the session, as ISO 8601 writes it. */
  static final Form<Duration> TIME =
      of(
          Duration::toString,
          Fields::time,
          Lines.map("type", "string", "format", "duration", "description", "since the start"));

  /** An amount with its unit, both as they were written. */
  static final Form<Quantity> QUANTITY =
      of(
          Fields::of,
          (in, name) -> in.fields(name).quantity(),
          described(
              Lines.map("amount", schema("number"), "unit", schema("string")),
              List.of("amount", "unit")));

  /** A value as {@link Json} writes it. */
  abstract Object write(T value);

  /** The value of a field. */
  abstract T read(Fields in, String name);

  /** What JSON Schema says of it. */
  abstract Map<String, Object> schema();

  /** Something with parts, each under its name. */
  static final class Parts<T> extends Form<T> {

    private final List<Part<T, ?>> parts;
    private final Function<Got, T> maker;

    private Parts(List<Part<T, ?>> parts, Function<Got, T> maker) {
      this.parts = parts;
      this.maker = maker;
    }

    @Override
    Map<String, Object> write(T value) {
      Map<String, Object> fields = new LinkedHashMap<>();
      parts.forEach(part -> part.write(value, fields));
      return fields;
    }

    @Override
    T read(Fields in, String name) {
      return read(in.fields(name), List.of());
    }

    /** The same from fields, among which are others that were read already. */
    private T read(Fields fields, List<String> others) {
      List<String> names = new ArrayList<>(others);
      parts.forEach(part -> names.add(part.name()));
      fields.only(names.toArray(new String[0]));
      return maker.apply(new Got(fields, parts.stream().map(part -> part.read(fields)).toList()));
    }

    @Override
    Map<String, Object> schema() {
      return described(properties(), needed());
    }

    private Map<String, Object> properties() {
      Map<String, Object> properties = new LinkedHashMap<>();
      parts.forEach(part -> properties.put(part.name(), part.form().schema()));
      return properties;
    }

    private List<String> needed() {
      List<String> needed = new ArrayList<>();
      parts.stream().filter(Part::needed).forEach(part -> needed.add(part.name()));
      return needed;
    }
  }

  /**
   * One part of something.
   *
   * @param <T> the whole
   * @param <V> the part
   */
  record Part<T, V>(String name, Function<T, Optional<V>> value, Form<V> form, boolean needed) {

    private void write(T whole, Map<String, Object> fields) {
      value.apply(whole).ifPresent(part -> fields.put(name, form.write(part)));
    }

    private Object read(Fields fields) {
      if (needed) {
        return form.read(fields, name);
      }
      return fields.has(name) ? Optional.of(form.read(fields, name)) : Optional.empty();
    }
  }

  /** A part that is always there. */
  static <T, V> Part<T, V> part(String name, Function<T, V> value, Form<V> form) {
    return new Part<>(name, whole -> Optional.of(value.apply(whole)), form, true);
  }

  /** A part that may be missing. */
  static <T, V> Part<T, V> maybe(String name, Function<T, Optional<V>> value, Form<V> form) {
    return new Part<>(name, value, form, false);
  }

  /** A list, always there. */
  static <T, V> Part<T, List<V>> parts(String name, Function<T, List<V>> value, Form<V> form) {
    return part(name, value, list(form));
  }

  /** The parts that were read, in the order of their table. */
  record Got(Fields from, List<Object> values) {

    /** The value of a part; an {@link Optional} of it for one that may be missing. */
    @SuppressWarnings({"unchecked", "TypeParameterUnusedInFormals"})
    <V> V at(int part) {
      return (V) values.get(part);
    }
  }

  /** Something of these parts; they are only read. */
  @SafeVarargs
  @SuppressWarnings("varargs")
  static <T> Parts<T> whole(Function<Got, T> maker, Part<T, ?>... parts) {
    return new Parts<>(List.of(parts), maker);
  }

  /** Something of these parts that is not read back, since something else makes it. */
  @SafeVarargs
  @SuppressWarnings("varargs")
  static <T> Parts<T> onlyWritten(Part<T, ?>... parts) {
    return new Parts<>(
        List.of(parts),
        got -> {
          throw new Unreadable(got.from().path(), "is only written");
        });
  }

  /**
   * One of several forms, named by a field of its own.
   *
   * @param tag the name of that field
   * @param named what it says of a value
   * @param forms the form of each
   * @param unknown what to say of any other word, such as {@code "is no event"}
   */
  static <T> Form<T> oneOf(
      String tag,
      Function<T, String> named,
      Map<String, Parts<? extends T>> forms,
      String unknown) {
    return new Form<>() {
      @Override
      Map<String, Object> write(T value) {
        String name = named.apply(value);
        Map<String, Object> fields = Lines.map(tag, name);
        fields.putAll(Form.written(requireNonNull(forms.get(name)), value));
        return fields;
      }

      @Override
      T read(Fields in, String name) {
        Fields fields = in.fields(name);
        Parts<? extends T> form = forms.get(fields.text(tag));
        if (form == null) {
          throw fields.unreadable(tag, unknown);
        }
        return form.read(fields, List.of(tag));
      }

      @Override
      Map<String, Object> schema() {
        List<Object> all = new ArrayList<>();
        forms.forEach(
            (name, form) -> {
              Map<String, Object> properties = Lines.map(tag, Lines.map("const", name));
              properties.putAll(form.properties());
              List<String> needed = new ArrayList<>(List.of(tag));
              needed.addAll(form.needed());
              all.add(described(properties, needed));
            });
        return Lines.map("oneOf", all);
      }
    };
  }

  // The tag says which form it is.
  @SuppressWarnings("unchecked")
  private static <T> Map<String, Object> written(Parts<? extends T> form, T value) {
    return ((Parts<T>) form).write(value);
  }

  static <T> Form<List<T>> list(Form<T> form) {
    return of(
        all -> all.stream().map(form::write).toList(),
        (in, name) -> in.each(name, form::read),
        Lines.map("type", "array", "items", form.schema()));
  }

  /** Values by the names that files or people give them. */
  static <T> Form<Map<String, T>> named(Form<T> form) {
    return of(
        all -> {
          Map<String, Object> fields = new LinkedHashMap<>();
          new TreeMap<>(all).forEach((name, value) -> fields.put(name, form.write(value)));
          return fields;
        },
        (in, name) -> {
          Fields fields = in.fields(name);
          Map<String, T> all = new LinkedHashMap<>();
          fields.names().forEach(one -> all.put(one, form.read(fields, one)));
          return all;
        },
        Lines.map("type", "object", "additionalProperties", form.schema()));
  }

  /** One of some words, each for a value. */
  static <T> Form<T> words(List<T> values, Function<T, String> word) {
    return of(
        word::apply,
        (in, name) -> {
          String text = in.text(name);
          return values.stream()
              .filter(value -> word.apply(value).equals(text))
              .findFirst()
              .orElseThrow(
                  () ->
                      in.unreadable(
                          name,
                          "is "
                              + Unreadable.shown(text)
                              + ", not one of "
                              + String.join(", ", values.stream().map(word).toList())));
        },
        Lines.map("enum", values.stream().map(word).toList()));
  }

  /** The constants of an enum by their names, in lower case. */
  static <E extends Enum<E>> Form<E> words(Class<E> constants) {
    return words(
        Arrays.asList(constants.getEnumConstants()), one -> one.name().toLowerCase(Locale.ROOT));
  }

  static <T> Form<T> of(
      Function<T, Object> write, BiFunction<Fields, String, T> read, Map<String, Object> schema) {
    return new Form<>() {
      @Override
      Object write(T value) {
        return write.apply(value);
      }

      @Override
      T read(Fields in, String name) {
        return read.apply(in, name);
      }

      @Override
      Map<String, Object> schema() {
        return schema;
      }
    };
  }

  private static <T> Form<T> plain(BiFunction<Fields, String, T> read, Map<String, Object> schema) {
    return of(value -> value, read, schema);
  }

  private static Map<String, Object> schema(String type) {
    return Lines.map("type", type);
  }

  static Map<String, Object> described(Map<String, Object> properties, List<String> needed) {
    return Lines.map(
        "type",
        "object",
        "properties",
        properties,
        "required",
        needed,
        "additionalProperties",
        false);
  }
}
