package org.gradus.rule.random;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.stream.IntStream;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Layout;
import org.gradus.rule.plan.Frame;
import org.gradus.unit.Kind;
import org.gradus.unit.Type;

/** What is known at one moment, in words; a missing reading is simply not there. */
record Readings(Layout layout, Map<String, Double> values) {

  static Readings random(Layout layout, Random random) {
    double missing = random.nextInt(4) / 6.0;
    Readings none = new Readings(layout, Map.of());
    for (int slot = 0; slot < layout.size(); slot++) {
      if (random.nextDouble() >= missing) {
        none = none.with(slot, value(layout.demands().get(slot), random));
      }
    }
    return none;
  }

  /** A value that could be read there. */
  static double value(Demand demand, Random random) {
    if (demand.type() instanceof Type.Measure measure) {
      return switch (random.nextInt(30)) {
        case 0 -> 0;
        case 1 -> -typical(measure.kind(), random);
        case 2 -> 1e-9 * typical(measure.kind(), random);
        case 3 -> random.nextBoolean() ? 1e15 : -1e15;
        case 4 -> random.nextGaussian() * 1000;
        default -> typical(measure.kind(), random);
      };
    } else if (demand.type() instanceof Type.Choice choice) {
      return Math.max(0, choice.options().size() - 1 - random.nextInt(8));
    }
    return random.nextInt(2);
  }

  /** A number that is neither rare nor strange, so that random values often meet. */
  static double typical(Kind kind, Random random) {
    return switch (kind) {
      case NUMBER -> random.nextInt(5) * (random.nextInt(3) == 0 ? 0.25 : 1);
      case HEART_RATE -> 100 + 5 * random.nextInt(10);
      case PRESSURE -> 100 + 10 * random.nextInt(12);
      case TIME -> 30 * random.nextInt(12);
      case AGE -> 20 + 10 * random.nextInt(5);
      default -> 10 * random.nextInt(8);
    };
  }

  /** Where the typical numbers of a kind begin. */
  static double lowest(Kind kind) {
    return switch (kind) {
      case HEART_RATE, PRESSURE -> 100;
      case AGE -> 20;
      default -> 0;
    };
  }

  /** The words for a demand. */
  static String key(Demand demand) {
    return key(demand.aspect(), demand.subjects(), demand.seconds());
  }

  static String key(Demand.Aspect aspect, List<String> subjects, double seconds) {
    return aspect + " " + String.join(", ", subjects) + " " + seconds;
  }

  Optional<Double> read(String key) {
    return Optional.ofNullable(values.get(key));
  }

  boolean has(int slot) {
    return values.containsKey(key(layout.demands().get(slot)));
  }

  double value(int slot) {
    return read(key(layout.demands().get(slot))).orElse(Double.NaN);
  }

  List<Integer> missing() {
    return IntStream.range(0, layout.size()).filter(slot -> !has(slot)).boxed().toList();
  }

  Readings with(int slot, double value) {
    return with(key(layout.demands().get(slot)), value);
  }

  Readings with(String key, double value) {
    Map<String, Double> all = new LinkedHashMap<>(values);
    all.put(key, value);
    return new Readings(layout, all);
  }

  Frame frame() {
    Frame frame = new Frame(layout);
    for (int slot = 0; slot < layout.size(); slot++) {
      if (has(slot)) {
        frame.set(slot, value(slot), 0);
      } else {
        frame.miss(slot, Gap.now(gap(slot), Gap.Cause.NEVER_TAKEN));
      }
    }
    return frame;
  }

  static String gap(int slot) {
    return "slot " + slot;
  }

  @Override
  public String toString() {
    return values.toString();
  }
}
