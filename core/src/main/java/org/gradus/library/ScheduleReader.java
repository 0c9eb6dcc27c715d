package org.gradus.library;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.protocol.BaselineLine;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.MeasureLine.IfMissing;
import org.gradus.protocol.MeasureLine.Timing;
import org.gradus.protocol.Posture;
import org.gradus.protocol.Signal;

/** Reads what is measured and when. */
final class ScheduleReader {

  private static final Duration WITHIN = Duration.ofSeconds(15);

  private final Texts texts;

  ScheduleReader(Texts texts) {
    this.texts = texts;
  }

  /** The lines of a list; words offered by a line become a signal. */
  List<Placed<MeasureLine>> lines(List<YamlNode> items, Map<String, Placed<Signal>> signals) {
    List<Placed<MeasureLine>> lines = new ArrayList<>();
    for (YamlNode item : items) {
      Keys.of(item, "a measure line", texts.problems())
          .flatMap(keys -> line(keys, signals))
          .ifPresent(lines::add);
    }
    return lines;
  }

  private Optional<Placed<MeasureLine>> line(Keys keys, Map<String, Placed<Signal>> signals) {
    List<Scalar> read = keys.texts("read");
    List<Scalar> choices = keys.texts("choices");
    Optional<Timing> timing = timing(keys);
    Duration within = keys.text("within").flatMap(texts::time).orElse(WITHIN);
    Duration late = keys.text("late").flatMap(texts::time).orElse(within);
    Optional<Scalar> named = keys.text("as").filter(texts::isName);
    MeasureLine line =
        new MeasureLine(
            read.stream().map(Scalar::value).toList(),
            timing.orElse(new Timing.At(Duration.ZERO)),
            keys.text("over").flatMap(texts::time).orElse(Duration.ZERO),
            keys.text("takes").flatMap(texts::time).orElse(Duration.ZERO),
            within,
            late,
            keys.text("valid_for").flatMap(texts::time),
            keys.text("if_missing")
                .flatMap(word -> texts.constant(word, IfMissing.class))
                .orElse(IfMissing.GO_ON),
            keys.text("scale").map(Scalar::value),
            named.map(Scalar::value));
    keys.done();
    if (read.isEmpty()) {
      texts.problems().add(keys.span(), Code.G303, keys.what(), "read");
      return Optional.empty();
    }
    if (!choices.isEmpty()) {
      Scalar name = read.get(0);
      signals.put(
          name.value(),
          new Placed<>(
              name.span(),
              Signal.choice(name.value(), choices.stream().map(Scalar::value).toList())));
    }
    return timing.map(found -> new Placed<>(read.get(0).span(), line));
  }

  private Optional<Timing> timing(Keys keys) {
    Optional<Scalar> each = keys.text("each");
    Optional<Scalar> from = keys.text("from");
    Optional<Scalar> at = keys.text("at");
    Optional<Scalar> beforeEnd = keys.text("before_end");
    long given = List.of(each, at, beforeEnd).stream().filter(Optional::isPresent).count();
    if (given != 1) {
      String found = given == 0 ? "none of them" : "more than one";
      texts
          .problems()
          .add(keys.span(), Code.G304, "each, at or before_end", found, "say once when it is read");
      return Optional.empty();
    }
    if (each.isPresent()) {
      Optional<Duration> every = each.flatMap(texts::stretch);
      return every.map(time -> new Timing.Each(time, from.flatMap(texts::time).orElse(time)));
    }
    return at.isPresent()
        ? at.flatMap(texts::time).map(Timing.At::new)
        : beforeEnd.flatMap(texts::time).map(Timing.BeforeEnd::new);
  }

  /** What is read before the first stage. */
  List<BaselineLine> baselines(List<YamlNode> items) {
    List<BaselineLine> lines = new ArrayList<>();
    for (YamlNode item : items) {
      Keys.of(item, "a measure line before the test", texts.problems())
          .ifPresent(keys -> baseline(keys).ifPresent(lines::add));
    }
    return lines;
  }

  private Optional<BaselineLine> baseline(Keys keys) {
    List<String> read = keys.texts("read").stream().map(Scalar::value).toList();
    Optional<Posture> posture =
        keys.needText("as").flatMap(word -> texts.constant(word, Posture.class));
    Duration after = keys.text("after").flatMap(texts::time).orElse(Duration.ZERO);
    keys.done();
    return posture.map(placed -> new BaselineLine(read, placed, after));
  }
}
