package org.gradus.rule.conformance;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.check.Layout;
import org.gradus.rule.plan.Frame;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;

/** Fills a frame with the readings of a case. */
final class Moment {

  private static final Pattern CALL =
      Pattern.compile("([a-z]+)\\(([a-z_0-9.]+)(?:, *([a-z_0-9.:, ]+))?\\)");
  private static final Pattern LINE = Pattern.compile("(.+) at (.+), slope (.+)");

  private final Frame frame;
  private final List<String> used = new ArrayList<>();

  private Moment(Layout layout) {
    this.frame = new Frame(layout);
  }

  /** The frame; every reading of the case itself must have a place in it. */
  static Frame of(Layout layout, Case given) {
    Moment moment = new Moment(layout);
    for (int slot = 0; slot < layout.size(); slot++) {
      Demand demand = layout.demands().get(slot);
      moment.frame.miss(slot, Gap.now(demand.subject(), Gap.Cause.NEVER_TAKEN));
      moment.fill(slot, demand, given.usual());
      moment.fill(slot, demand, given.readings());
    }
    List<String> idle = new ArrayList<>(given.readings().keySet());
    idle.removeAll(moment.used);
    if (!idle.isEmpty()) {
      throw new IllegalArgumentException("nothing asks for " + idle);
    }
    return moment.frame;
  }

  private void fill(int slot, Demand demand, Map<String, String> readings) {
    readings.forEach(
        (key, reading) -> {
          if (matches(key, demand)) {
            used.add(key);
            fill(slot, demand, reading);
          }
        });
  }

  private static boolean matches(String key, Demand demand) {
    Matcher call = CALL.matcher(key);
    if (!call.matches()) {
      return demand.aspect() == Aspect.VALUE && demand.subject().equals(key);
    }
    String subject = call.group(2);
    String further = call.group(3);
    boolean line = call.group(1).equals("line");
    if (line || call.group(1).equals("interpolated")) {
      return (line
              ? demand.aspect().name().startsWith("LINE")
              : demand.aspect() == Aspect.INTERPOLATED)
          && demand.subjects().equals(Arrays.asList((subject + ", " + further).split(", *")));
    }
    return demand.aspect() == Aspect.valueOf(call.group(1).toUpperCase(Locale.ROOT))
        && demand.subject().equals(subject)
        && (further == null || Names.quantity(further).base() == demand.seconds());
  }

  private void fill(int slot, Demand demand, String reading) {
    if (isReason(reading)) {
      frame.miss(slot, gap(demand.subject(), reading));
    } else {
      frame.set(slot, value(demand, reading), 0);
    }
  }

  private static double value(Demand demand, String reading) {
    Matcher line = LINE.matcher(reading);
    if (line.matches()) {
      int part =
          switch (demand.aspect()) {
            case LINE_MEAN_Y -> 1;
            case LINE_MEAN_X -> 2;
            default -> 3;
          };
      return of(demand.type(), line.group(part));
    }
    return of(demand.type(), reading);
  }

  private static double of(Type type, String reading) {
    if (type instanceof Type.Choice choice) {
      int option = choice.options().indexOf(reading);
      if (option < 0) {
        throw new IllegalArgumentException(reading + " is no option");
      }
      return option;
    } else if (type.equals(Type.CONDITION)) {
      if (!CaseFile.isTruth(reading)) {
        throw new IllegalArgumentException(reading + " is neither yes nor no");
      }
      return reading.equals("yes") ? 1 : 0;
    }
    Quantity quantity = Names.quantity(reading);
    if (!new Type.Measure(quantity.kind()).equals(type)) {
      throw new IllegalArgumentException(reading + " is of another kind");
    }
    return quantity.base();
  }

  private static boolean isReason(String text) {
    return Arrays.stream(Gap.Cause.values()).anyMatch(cause -> text.startsWith(cause.words()));
  }

  /** A reason as the cases write it: {@code "too old, at 2:30"}. */
  static Gap gap(String subject, String reason) {
    int comma = reason.lastIndexOf(", ");
    Gap.Cause cause =
        Arrays.stream(Gap.Cause.values())
            .filter(known -> known.words().equals(reason.substring(0, Math.max(0, comma))))
            .findFirst()
            .orElseThrow(() -> new IllegalArgumentException("no such reason: " + reason));
    String settle = reason.substring(comma + 2);
    if (settle.startsWith("at ")) {
      double seconds = Names.quantity(settle.substring(3)).base();
      return Gap.at(Duration.ofSeconds((long) seconds), subject, cause);
    }
    return switch (settle) {
      case "now" -> Gap.now(subject, cause);
      case "never" -> Gap.never(subject, cause);
      default -> throw new IllegalArgumentException("no such time: " + reason);
    };
  }
}
