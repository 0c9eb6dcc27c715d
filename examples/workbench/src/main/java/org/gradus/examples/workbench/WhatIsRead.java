package org.gradus.examples.workbench;

import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import org.gradus.protocol.BaselineLine;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Timing;
import org.gradus.session.Times;
import org.gradus.unit.Type;

/** What is read and when, in the words of the files. */
final class WhatIsRead {

  private WhatIsRead() {}

  static String when(Timing timing) {
    if (timing instanceof Timing.Each each) {
      String from =
          each.from().equals(each.every()) ? "" : " from " + Times.clock(each.from()) + " on";
      return "each " + Times.clock(each.every()) + from;
    } else if (timing instanceof Timing.At at) {
      return "at " + Times.clock(at.time());
    } else if (timing instanceof Timing.BeforeEnd before) {
      return Times.clock(before.lead()) + " before the end";
    }
    return "when the stage is done";
  }

  static String line(MeasureLine line) {
    return String.join(", ", line.signals())
        + line.named().map(name -> " as " + name).orElse("")
        + "  "
        + when(line.timing())
        + part("counted over", line.over())
        + part("takes", line.takes())
        + part("up to", line.late(), "late")
        + line.scale().map(scale -> ", on " + scale).orElse("")
        + (line.in().isEmpty() ? "" : ", in " + String.join(", ", line.in()))
        + switch (line.ifMissing()) {
          case WAIT -> ", waited for";
          case GO_ON -> "";
          case FINISH -> ", finish without it";
        };
  }

  private static String part(String before, Duration time) {
    return time.isZero() ? "" : ", " + before + " " + time.toSeconds() + " s";
  }

  private static String part(String before, Duration time, String after) {
    return time.isZero() ? "" : part(before, time) + " " + after;
  }

  static String line(BaselineLine line) {
    String after = line.after().isZero() ? "" : " for " + Times.clock(line.after());
    return String.join(", ", line.signals()) + "  " + line.placed() + after;
  }

  static Map<String, Object> map(BaselineLine line) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("read", line.signals());
    map.put("as", line.posture().word());
    map.put("posture", line.placed());
    map.put("after", line.after().toSeconds());
    return map;
  }

  static String kind(Type type) {
    if (type instanceof Type.Measure measure) {
      return measure.kind().name().toLowerCase(Locale.ROOT);
    }
    return type instanceof Type.Choice choice ? String.join(" or ", choice.options()) : "yes or no";
  }
}
