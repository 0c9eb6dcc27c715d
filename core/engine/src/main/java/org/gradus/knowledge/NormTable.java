package org.gradus.knowledge;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.gradus.words.Message;

/**
 * Reference values of a population, as they are printed.
 *
 * @param id its name
 * @param of what is compared: {@code vo2max}, or the name of a reading
 * @param unit the unit of its figures
 * @param when for whom it is
 * @param ergometer on which ergometer it was found, if that matters
 * @param protocol the test it belongs to, if it is of one only
 * @param higherIsBetter whether more is better
 * @param edition its edition
 * @param ages the age groups, in order
 * @param rows its figures
 * @param notes gaps, misprints and the like
 * @param source its citation
 */
public record NormTable(
    String id,
    String of,
    Unit unit,
    Proviso when,
    Optional<String> ergometer,
    Optional<String> protocol,
    boolean higherIsBetter,
    String edition,
    List<Ages> ages,
    Rows rows,
    List<String> notes,
    Citation source) {

  /**
   * An age group, in completed years.
   *
   * @param from the youngest in it
   * @param to the oldest in it
   */
  public record Ages(int from, int to) {}

  /** The figures of a table. */
  public sealed interface Rows {}

  /**
   * Percentiles.
   *
   * @param rows the lowest first
   */
  public record Percentiles(List<Percentile> rows) implements Rows {
    public Percentiles {
      requireNonNull(rows, "rows");
      rows = List.copyOf(rows);
    }
  }

  /**
   * One percentile.
   *
   * @param percent so many of a hundred lie below
   * @param values one for each age group
   */
  public record Percentile(int percent, List<Quantity> values) {
    public Percentile {
      requireNonNull(values, "values");
      values = List.copyOf(values);
    }
  }

  /**
   * Classes.
   *
   * @param rows the best first
   * @param numbered whether the file numbers them and gives them no names
   */
  public record Classes(List<NormClass> rows, boolean numbered) implements Rows {
    public Classes {
      requireNonNull(rows, "rows");
      rows = List.copyOf(rows);
    }
  }

  /**
   * One class.
   *
   * @param name what it is called; {@code class 2 of 7} where the file numbers its classes
   * @param values one stretch for each age group; none where the table prints nothing usable
   */
  public record NormClass(String name, List<Optional<Stretch>> values) {
    public NormClass {
      requireNonNull(name, "name");
      requireNonNull(values, "values");
      values = List.copyOf(values);
    }
  }

  /**
   * A printed stretch, both ends included.
   *
   * @param from its lower end
   * @param to its upper end
   */
  public record Stretch(Quantity from, Quantity to) {
    public Stretch {
      requireNonNull(from, "from");
      requireNonNull(to, "to");
    }

    /** Both ends, to be said in any language. */
    public Message message() {
      return Message.of(ResultMessage.RANGE, Quantity.plain(from.amount()), to);
    }

    @Override
    public String toString() {
      return message().toString();
    }
  }

  public NormTable {
    requireNonNull(ages, "ages");
    requireNonNull(edition, "edition");
    requireNonNull(ergometer, "ergometer");
    requireNonNull(id, "id");
    requireNonNull(notes, "notes");
    requireNonNull(of, "of");
    requireNonNull(protocol, "protocol");
    requireNonNull(rows, "rows");
    requireNonNull(source, "source");
    requireNonNull(unit, "unit");
    requireNonNull(when, "when");
    ages = List.copyOf(ages);
    notes = List.copyOf(notes);
  }
}
