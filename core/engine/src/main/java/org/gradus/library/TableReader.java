package org.gradus.library;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.gradus.diagnostic.Code;
import org.gradus.knowledge.Citation;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.library.YamlNode.Sequence;
import org.gradus.rule.check.Table;
import org.gradus.rule.check.Table.Between;
import org.gradus.rule.check.Table.Beyond;
import org.gradus.rule.check.Table.Point;
import org.gradus.unit.Kind;

/** Reads printed tables of one value against another. */
final class TableReader {

  private final ScalarParser texts;

  TableReader(ScalarParser texts) {
    this.texts = texts;
  }

  Optional<Draft.Tabled> table(String name, Keys keys) {
    Optional<Kind> of = keys.needText("of").flatMap(word -> texts.constant(word, Kind.class));
    Optional<Kind> gives = keys.needText("gives").flatMap(word -> texts.constant(word, Kind.class));
    Between between =
        keys.text("between")
            .flatMap(word -> texts.constant(word, Between.class))
            .orElse(Between.LINE);
    Beyond beyond =
        keys.text("beyond")
            .flatMap(word -> texts.constant(word, Beyond.class))
            .orElse(Beyond.REFUSE);
    Optional<YamlNode> rows = keys.need("points");
    Citation source = texts.source(keys);
    keys.done();
    if (of.isEmpty() || gives.isEmpty() || rows.isEmpty()) {
      return Optional.empty();
    }
    return points(rows.get(), of.get(), gives.get())
        .map(
            points ->
                new Draft.Tabled(
                    new Table(name, of.get(), gives.get(), points, between, beyond), source));
  }

  private Optional<List<Point>> points(YamlNode rows, Kind of, Kind gives) {
    List<YamlNode> items = Keys.itemsOf(rows);
    List<Point> points = new ArrayList<>();
    for (YamlNode row : items) {
      Optional<Point> point = point(row, of, gives);
      if (point.isEmpty()) {
        return Optional.empty();
      }
      boolean ascends = points.isEmpty() || points.get(points.size() - 1).x() < point.get().x();
      if (!ascends) {
        texts
            .problems()
            .add(
                row.span(),
                Code.G305,
                row.span().text(),
                "a row that goes on upwards",
                "order the rows by their first value, each once");
        return Optional.empty();
      }
      points.add(point.get());
    }
    if (points.isEmpty()) {
      texts
          .problems()
          .add(rows.span(), Code.G304, "rows of two values", "none", "write [15 years, 1.10]");
      return Optional.empty();
    }
    return Optional.of(points);
  }

  private Optional<Point> point(YamlNode row, Kind of, Kind gives) {
    boolean pair =
        row instanceof Sequence sequence
            && sequence.items().size() == 2
            && sequence.items().stream().allMatch(Scalar.class::isInstance);
    if (!pair) {
      texts
          .problems()
          .add(
              row.span(), Code.G304, "a row of two values", row.phrase(), "write [15 years, 1.10]");
      return Optional.empty();
    }
    List<YamlNode> items = ((Sequence) row).items();
    OptionalDouble x = value((Scalar) items.get(0), of);
    OptionalDouble y = value((Scalar) items.get(1), gives);
    return x.isPresent() && y.isPresent()
        ? Optional.of(new Point(x.getAsDouble(), y.getAsDouble()))
        : Optional.empty();
  }

  private OptionalDouble value(Scalar text, Kind kind) {
    return texts.quantity(text, kind).stream().mapToDouble(quantity -> quantity.base()).findFirst();
  }
}
