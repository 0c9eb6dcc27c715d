package org.gradus.capacity;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.capacity.Standing.AmongPercentiles;
import org.gradus.capacity.Standing.InClass;
import org.gradus.capacity.Standing.Nowhere;
import org.gradus.capacity.Standing.Place;
import org.gradus.knowledge.NormTable;
import org.gradus.knowledge.NormTable.Ages;
import org.gradus.knowledge.NormTable.Classes;
import org.gradus.knowledge.NormTable.NormClass;
import org.gradus.knowledge.NormTable.Percentile;
import org.gradus.knowledge.NormTable.Percentiles;
import org.gradus.knowledge.NormTable.Stretch;
import org.gradus.knowledge.ResultMessage;
import org.gradus.unit.Quantity;
import org.gradus.words.FileText;
import org.gradus.words.Joined;
import org.gradus.words.Message;

/** The place of a value in a table of reference values. */
final class NormPlace {

  private NormPlace() {}

  /**
   * Where a value stands.
   *
   * @param age of the person, if it is known
   * @param interval around the value, if there is one
   */
  static Standing of(
      NormTable table, Quantity value, Optional<Quantity> age, Optional<Interval> interval) {
    if (age.isEmpty()) {
      return new Nowhere(table, Message.of(ResultMessage.AGE_NOT_KNOWN));
    }
    int years = (int) age.get().base();
    for (int group = 0; group < table.ages().size(); group++) {
      Ages ages = table.ages().get(group);
      if (ages.from() <= years && years <= ages.to()) {
        return table.rows() instanceof Percentiles percentiles
            ? among(table, percentiles, group, value, interval)
            : inClass(table, (Classes) table.rows(), group, value);
      }
    }
    return new Nowhere(
        table,
        Message.of(
            ResultMessage.NO_FIGURES,
            years,
            table.ages().get(0).from(),
            table.ages().get(table.ages().size() - 1).to()));
  }

  private static Standing among(
      NormTable table, Percentiles rows, int group, Quantity value, Optional<Interval> interval) {
    return new AmongPercentiles(
        table,
        value,
        place(table, rows, group, value),
        interval.map(around -> place(table, rows, group, around.low())),
        interval.map(around -> place(table, rows, group, around.high())));
  }

  private static Place place(NormTable table, Percentiles rows, int group, Quantity value) {
    Optional<Integer> below = Optional.empty();
    boolean exactly = false;
    for (Percentile row : rows.rows()) {
      double printed = row.values().get(group).base();
      boolean same = Quantity.same(printed, value.base());
      boolean reached = table.higherIsBetter() ? value.base() > printed : value.base() < printed;
      if (!same && !reached) {
        return new Place(below, Optional.of(row.percent()), exactly);
      }
      below = Optional.of(row.percent());
      exactly = same;
    }
    return new Place(below, Optional.empty(), exactly);
  }

  private static Standing inClass(NormTable table, Classes rows, int group, Quantity value) {
    List<Near> near = new ArrayList<>();
    for (NormClass row : rows.rows()) {
      row.values().get(group).ifPresent(s -> near.add(new Near(row.name(), s, distance(s, value))));
    }
    double least = near.stream().mapToDouble(Near::distance).min().orElse(Double.NaN);
    List<Near> nearest =
        near.stream().filter(found -> Quantity.same(found.distance(), least)).toList();
    if (nearest.isEmpty()) {
      return new Nowhere(table, Message.of(ResultMessage.NO_CLASS));
    }
    if (least > 0) {
      Optional<NormClass> between = unusable(table, rows, group, value);
      if (between.isPresent()) {
        return new Nowhere(
            table,
            Message.of(ResultMessage.NO_USABLE_FIGURES, value, new FileText(between.get().name())));
      }
    }
    // The best class stands first: of two that fit alike the poorer one is taken.
    Near taken = nearest.get(nearest.size() - 1);
    return new InClass(table, value, taken.name(), remark(nearest, taken, least));
  }

  // A class without usable figures that stands where the value falls: after the last class that is
  // better than the value and before the first that is poorer.
  private static Optional<NormClass> unusable(
      NormTable table, Classes rows, int group, Quantity value) {
    Optional<NormClass> found = Optional.empty();
    for (NormClass row : rows.rows()) {
      Optional<Stretch> stretch = row.values().get(group);
      if (stretch.isEmpty()) {
        found = Optional.of(row);
      } else if (isBetter(table, stretch.get(), value)) {
        found = Optional.empty();
      } else {
        return found;
      }
    }
    return found;
  }

  private static boolean isBetter(NormTable table, Stretch stretch, Quantity value) {
    return table.higherIsBetter() == stretch.from().base() > value.base();
  }

  private record Near(String name, Stretch stretch, double distance) {}

  private static double distance(Stretch stretch, Quantity value) {
    double below = stretch.from().base() - value.base();
    double above = value.base() - stretch.to().base();
    return Math.max(0, Math.max(below, above));
  }

  private static Optional<Message> remark(List<Near> nearest, Near taken, double least) {
    Message others =
        nearest.stream()
            .map(
                near ->
                    Message.of(Joined.PAIR, new FileText(near.name()), near.stretch().message()))
            .reduce((one, more) -> Message.of(ResultMessage.AND, one, more))
            .orElseThrow();
    if (least > 0) {
      return Optional.of(
          nearest.size() > 1
              ? Message.of(ResultMessage.MIDWAY, others)
              : Message.of(ResultMessage.NEAREST, taken.stretch().message()));
    }
    return nearest.size() > 1
        ? Optional.of(Message.of(ResultMessage.IN_SEVERAL, others))
        : Optional.empty();
  }
}
