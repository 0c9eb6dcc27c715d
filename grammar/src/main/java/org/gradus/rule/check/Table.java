package org.gradus.rule.check;

import java.util.List;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;

/**
 * A printed table of one value against another.
 *
 * @param name its name
 * @param of what it is entered with
 * @param gives what is read from it
 * @param points its rows by ascending x; at least one
 * @param between what holds between two rows
 * @param beyond what holds outside the first and the last row
 */
public record Table(
    String name, Kind of, Kind gives, List<Point> points, Between between, Beyond beyond) {

  /**
   * A row.
   *
   * @param x what it is entered with, in the base unit of its kind
   * @param y what is read, in the base unit of its kind
   */
  public record Point(double x, double y) {}

  /** What holds between two rows. */
  public enum Between {
    /** A straight line joins them. */
    LINE,
    /** The lower row holds up to the next. */
    STEP
  }

  /** What holds outside the table. */
  public enum Beyond {
    /** Nothing is known. */
    REFUSE,
    /** The nearest row holds. */
    NEAREST
  }

  /**
   * @throws IllegalArgumentException unless there is a row and x ascends
   */
  public Table {
    points = List.copyOf(points);
    boolean ascends = !points.isEmpty();
    for (int i = 1; i < points.size(); i++) {
      ascends &= points.get(i - 1).x() < points.get(i).x();
    }
    if (!ascends) {
      throw new IllegalArgumentException("the rows of " + name + " do not ascend");
    }
  }

  /** What the table gives for a value; NaN where it gives nothing. */
  public double at(double x) {
    Point first = points.get(0);
    Point last = points.get(points.size() - 1);
    if (isOutside(x)) {
      boolean nearest = beyond == Beyond.NEAREST;
      return nearest ? (x < first.x() ? first : last).y() : Double.NaN;
    }
    for (int i = points.size() - 1; i >= 0; i--) {
      Point row = points.get(i);
      if (Quantity.same(x, row.x())) {
        return row.y();
      } else if (x > row.x()) {
        return between == Between.LINE ? onLine(row, points.get(i + 1), x) : row.y();
      }
    }
    return Double.NaN;
  }

  /**
   * Whether a value lies before the first or behind the last row. What a conversion has put a hair
   * beside a row is at the row, as in a comparison.
   */
  public boolean isOutside(double x) {
    double first = points.get(0).x();
    double last = points.get(points.size() - 1).x();
    return (x < first && !Quantity.same(x, first)) || (x > last && !Quantity.same(x, last));
  }

  // Exact at both ends, so that a printed row gives what is printed; and never beyond them.
  private static double onLine(Point a, Point b, double x) {
    double share = (x - a.x()) / (b.x() - a.x());
    double between = a.y() * (1 - share) + b.y() * share;
    return Math.max(Math.min(a.y(), b.y()), Math.min(Math.max(a.y(), b.y()), between));
  }
}
