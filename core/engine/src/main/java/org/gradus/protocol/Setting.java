package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.gradus.knowledge.Citation;
import org.gradus.unit.Quantity;
import org.gradus.unit.QuantityRange;
import org.gradus.words.FileText;
import org.gradus.words.Joined;
import org.gradus.words.Message;

/**
 * A figure or word of a protocol that may be changed within printed limits.
 *
 * @param name the name rules use
 * @param value what it is
 * @param options the printed values it can be; empty when there is a range instead, or neither
 * @param range the range it can be in
 * @param source where the value comes from
 */
public record Setting(
    String name,
    Value value,
    List<Option> options,
    Optional<QuantityRange> range,
    Citation source) {

  /** A figure or a word. */
  public sealed interface Value {}

  /**
   * A figure.
   *
   * @param quantity amount and unit
   */
  public record Figure(Quantity quantity) implements Value {
    public Figure {
      requireNonNull(quantity, "quantity");
    }

    @Override
    public String toString() {
      return quantity.toString();
    }
  }

  /**
   * A word of a fixed choice.
   *
   * @param word the word
   */
  public record Word(String word) implements Value {
    public Word {
      requireNonNull(word, "word");
    }

    @Override
    public String toString() {
      return word;
    }
  }

  /**
   * A printed value.
   *
   * @param value what the setting can be
   * @param source who prints it
   * @param note a remark, or empty
   */
  public record Option(Value value, Citation source, String note) {
    public Option {
      requireNonNull(note, "note");
      requireNonNull(source, "source");
      requireNonNull(value, "value");
    }
  }

  public Setting {
    requireNonNull(name, "name");
    requireNonNull(options, "options");
    requireNonNull(range, "range");
    requireNonNull(source, "source");
    requireNonNull(value, "value");
    options = List.copyOf(options);
  }

  /** Whether the file allows a value. */
  public boolean allows(Value wanted) {
    requireNonNull(wanted, "wanted");
    return isSame(value, wanted) || isPrinted(wanted);
  }

  /** Whether the value itself lies within the options or the range, where there are any. */
  public boolean isConsistent() {
    return (options.isEmpty() && range.isEmpty()) || isPrinted(value);
  }

  private boolean isPrinted(Value wanted) {
    boolean inRange =
        range
            .filter(limits -> wanted instanceof Figure figure && lies(figure.quantity(), limits))
            .isPresent();
    return inRange || options.stream().anyMatch(option -> isSame(option.value(), wanted));
  }

  private static boolean isSame(Value printed, Value wanted) {
    if (printed instanceof Figure a && wanted instanceof Figure b) {
      return a.quantity().isSameAs(b.quantity());
    }
    return printed.equals(wanted);
  }

  private static boolean lies(Quantity quantity, QuantityRange range) {
    boolean reachesLow = quantity.base() >= range.low().base() || quantity.isSameAs(range.low());
    boolean staysBelow = quantity.base() <= range.high().base() || quantity.isSameAs(range.high());
    return quantity.kind() == range.low().kind() && reachesLow && staysBelow;
  }

  /** Whether it can be anything but what it is. */
  public boolean isOpen() {
    return range.isPresent() || options.size() > 1;
  }

  /** Its value with the printed values and the ends of the range, as far as they are figures. */
  public List<Quantity> figures() {
    List<Quantity> figures = new ArrayList<>();
    range.ifPresent(ends -> figures.addAll(List.of(ends.low(), ends.high())));
    Stream.concat(Stream.of(value), options.stream().map(Option::value))
        .filter(Figure.class::isInstance)
        .forEach(figure -> figures.add(((Figure) figure).quantity()));
    return List.copyOf(figures);
  }

  /** What the file allows, in English. */
  public String allowed() {
    return choice().toString();
  }

  /** What the file allows, to be said in any language. */
  public Message choice() {
    return range
        .map(limits -> Message.of(Joined.ALONE, limits))
        .or(
            () ->
                options.stream().map(option -> said(option.value())).reduce(QuantityRange::either))
        .orElseGet(() -> said(value));
  }

  private static Message said(Value value) {
    return value instanceof Figure figure
        ? Message.of(Joined.ALONE, figure.quantity())
        : Message.of(Joined.ALONE, new FileText(value.toString()));
  }

  /** The same setting with another value and the source that goes with it. */
  public Setting withValue(Value wanted) {
    requireNonNull(wanted, "wanted");
    Citation printedBy =
        options.stream()
            .filter(option -> isSame(option.value(), wanted))
            .map(Option::source)
            .findFirst()
            .orElse(source);
    return new Setting(name, wanted, options, range, printedBy);
  }
}
