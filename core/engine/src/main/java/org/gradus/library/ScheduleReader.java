package org.gradus.library;

import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gradus.diagnostic.Code;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.protocol.BaselineLine;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.MeasureLine.IfMissing;
import org.gradus.protocol.Posture;
import org.gradus.protocol.Signal;
import org.gradus.protocol.Timing;

/** Reads what is measured and when. */
final class ScheduleReader {

  private static final List<String> TIMES = List.of("over", "takes", "within", "late", "valid_for");
  private static final List<String> TIMINGS = List.of("each", "at", "before_end");

  private static final String DONE = "done";

  private final ScalarParser texts;

  ScheduleReader(ScalarParser texts) {
    this.texts = texts;
  }

  /** The lines of a list; words offered by a line become a signal. */
  List<MeasureDraft> lines(List<YamlNode> items, Draft draft) {
    List<MeasureDraft> lines = new ArrayList<>();
    for (YamlNode item : items) {
      Keys.of(item, "a measure line", texts.problems())
          .flatMap(keys -> line(keys, draft))
          .ifPresent(lines::add);
    }
    return lines;
  }

  /** The lines that a stage has for itself; they are read in it only. */
  List<MeasureDraft> linesOf(Scalar stage, List<YamlNode> items, Draft draft) {
    List<MeasureDraft> lines = new ArrayList<>();
    for (MeasureDraft line : lines(items, draft)) {
      line.in()
          .forEach(
              name ->
                  texts
                      .problems()
                      .add(
                          name.span(),
                          Code.G302,
                          "in",
                          "a line of a stage",
                          "leave it out: the line is read in this stage"));
      lines.add(line.in(List.of(stage)));
    }
    return lines;
  }

  private Optional<MeasureDraft> line(Keys keys, Draft draft) {
    List<Scalar> read = read(keys);
    boolean choice = keys.has("choices");
    List<Scalar> choices = keys.texts("choices");
    Optional<Timing> timing = timing(keys);
    Map<String, MeasureDraft.Time> times = new HashMap<>();
    TIMES.forEach(key -> time(keys, key).ifPresent(time -> times.put(key, time)));
    Optional<Scalar> scale = keys.text("scale");
    Optional<Scalar> named = keys.text("as").filter(texts::isName);
    MeasureLine line =
        new MeasureLine(
            read.stream().map(Scalar::value).toList(),
            timing.orElse(new Timing.At(Duration.ZERO)),
            Duration.ZERO,
            Duration.ZERO,
            MeasureDraft.WITHIN,
            MeasureDraft.WITHIN,
            Optional.empty(),
            keys.text("if_missing")
                .flatMap(word -> texts.constant(word, IfMissing.class))
                .orElse(IfMissing.GO_ON),
            scale.map(Scalar::value),
            named.map(Scalar::value),
            texts.posture(keys),
            List.of());
    List<Scalar> in = keys.texts("in");
    keys.done();
    if (read.size() > 1) {
      String several = "a measure line of several readings";
      keys.idle("choices", several, "give the reading a line of its own");
      keys.idle("scale", several, "give the reading a line of its own");
      keys.idle("as", several, "give the reading a line of its own");
    }
    if (choice && read.size() == 1) {
      choice(read.get(0), choices, draft);
    }
    if (timing.isEmpty()) {
      named.map(Scalar::value).ifPresent(draft.faulty::add);
    }
    return timing.isEmpty() || read.isEmpty()
        ? Optional.empty()
        : Optional.of(new MeasureDraft(line, read, scale, named, in, times));
  }

  // A time may be written out, or be that of a setting.
  private Optional<MeasureDraft.Time> time(Keys keys, String key) {
    Optional<Scalar> text = keys.text(key);
    return text.filter(word -> ScalarParser.matches(word, "[A-Za-z][A-Za-z0-9_]*"))
        .map(setting -> new MeasureDraft.Time(setting, Optional.empty()))
        .or(
            () ->
                text.flatMap(texts::time)
                    .map(time -> new MeasureDraft.Time(text.get(), Optional.of(time))));
  }

  private List<Scalar> read(Keys keys) {
    List<Scalar> read = new ArrayList<>();
    Set<String> names = new HashSet<>();
    for (Scalar name : keys.needTexts("read")) {
      if (names.add(name.value())) {
        read.add(name);
      } else {
        texts.problems().add(name.span(), Code.G306, name.value());
      }
    }
    return read;
  }

  private void choice(Scalar name, List<Scalar> choices, Draft draft) {
    Optional<List<String>> words = choices.isEmpty() ? Optional.empty() : texts.options(choices);
    if (words.isEmpty() || !texts.isName(name)) {
      draft.faulty.add(name.value());
    } else if (draft.signals.containsKey(name.value())) {
      texts.problems().add(name.span(), Code.G306, "the signal " + name.value());
    } else {
      draft.signals.put(
          name.value(), new Placed<>(name.span(), Signal.choice(name.value(), words.get())));
    }
  }

  private Optional<Timing> timing(Keys keys) {
    Optional<Scalar> each = keys.text("each");
    Optional<Scalar> from = keys.text("from");
    Optional<Scalar> at = keys.text("at");
    Optional<Scalar> beforeEnd = keys.text("before_end");
    long given = TIMINGS.stream().filter(keys::has).count();
    if (given != 1) {
      // A misspelt one is reported as what it is.
      if (given > 1 || TIMINGS.stream().noneMatch(keys.misspelt()::contains)) {
        String found = given == 0 ? "none of them" : "more than one";
        String help = "say once when it is read";
        texts.problems().add(keys.start(), Code.G304, "each, at or before_end", found, help);
      }
      return Optional.empty();
    }
    if (each.isEmpty()) {
      keys.idle("from", "a line that is read once", "only each has a beginning");
    }
    if (each.isPresent()) {
      Optional<Duration> every = each.flatMap(texts::stretch);
      return every.map(time -> new Timing.Each(time, from.flatMap(texts::time).orElse(time)));
    }
    if (at.filter(text -> text.value().equals(DONE)).isPresent()) {
      return Optional.of(new Timing.WhenDone());
    }
    return at.isPresent()
        ? at.flatMap(texts::time).map(Timing.At::new)
        : beforeEnd.flatMap(texts::time).map(Timing.BeforeEnd::new);
  }

  /** What the tester is reminded of. */
  List<CueDraft> cues(List<YamlNode> items) {
    List<CueDraft> cues = new ArrayList<>();
    for (YamlNode item : items) {
      Keys.of(item, "a cue", texts.problems()).flatMap(this::cue).ifPresent(cues::add);
    }
    return cues;
  }

  private Optional<CueDraft> cue(Keys keys) {
    Optional<Scalar> say = keys.needText("say");
    Optional<Timing> timing = timing(keys);
    List<Scalar> in = keys.texts("in");
    keys.done();
    return say.isPresent()
        ? timing.map(due -> new CueDraft(say.get().value().strip(), due, in))
        : Optional.empty();
  }

  /** What is read before the first stage. */
  List<BaselineDraft> baselines(List<YamlNode> items) {
    List<BaselineDraft> lines = new ArrayList<>();
    for (YamlNode item : items) {
      Keys.of(item, "a measure line before the test", texts.problems())
          .flatMap(this::baseline)
          .ifPresent(lines::add);
    }
    return lines;
  }

  private Optional<BaselineDraft> baseline(Keys keys) {
    List<Scalar> read = read(keys);
    Optional<Posture> posture =
        keys.needText("as").flatMap(word -> texts.constant(word, Posture.class));
    Optional<String> placed = texts.posture(keys);
    Duration after = keys.text("after").flatMap(texts::time).orElse(Duration.ZERO);
    keys.done();
    List<String> signals = read.stream().map(Scalar::value).toList();
    return posture.map(
        as ->
            new BaselineDraft(
                new BaselineLine(signals, as, placed.orElse(usual(as)), after), read));
  }

  private static String usual(Posture posture) {
    return posture == Posture.RESTING ? "seated" : "standing";
  }
}
