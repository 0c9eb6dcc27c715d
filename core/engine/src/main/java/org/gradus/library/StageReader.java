package org.gradus.library;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gradus.diagnostic.Span;
import org.gradus.knowledge.Citation;
import org.gradus.library.StageDraft.LoadDraft;
import org.gradus.library.StageDraft.RoundDraft;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.unit.Kind;

/** Reads stages. */
final class StageReader {

  /** What stages say besides loads, so that no load can be called so. */
  static final Set<String> KEYS =
      Set.of(
          "id",
          "lasts",
          "at_most",
          "warm_up",
          "falls",
          "stage_end",
          "measure",
          "posture",
          "source",
          "note",
          "load",
          "series",
          "count",
          "rest",
          "repeat",
          "times",
          "stages");

  private static final String UNTIL_DONE = "until_done";
  private static final String UNTIL_END = "until_end";
  private static final int MOST_OF_A_SERIES = Ways.MOST_STAGES;

  // What could not be read has been noted; the stage is kept, so that rules may mention it.
  private static final Duration SOME_TIME = Duration.ofMinutes(1);

  private final ScalarParser texts;
  private final RuleReader rules;
  private final ScheduleReader schedules;
  private final LoadReader loads;

  StageReader(ScalarParser texts, RuleReader rules) {
    this.texts = texts;
    this.rules = rules;
    this.schedules = new ScheduleReader(texts);
    this.loads = new LoadReader(texts);
  }

  /** The stages of a test. */
  List<StageDraft> stages(List<YamlNode> items, Draft draft) {
    List<StageDraft> stages = new ArrayList<>();
    for (YamlNode item : items) {
      Keys.of(item, "a stage", texts.problems())
          .ifPresent(
              keys -> {
                if (keys.has("series")) {
                  keys.keys("series", "a series").ifPresent(inner -> series(inner, stages, draft));
                  keys.done();
                } else if (keys.has("repeat")) {
                  keys.keys("repeat", "a block").ifPresent(inner -> block(inner, stages, draft));
                  keys.done();
                } else {
                  stages.add(stage(keys, stages.size() + 1, draft));
                }
              });
    }
    return stages;
  }

  // The same stages several times over: hard_1, easy_1, hard_2, easy_2 and so on.
  private void block(Keys keys, List<StageDraft> stages, Draft draft) {
    Optional<Scalar> id = keys.needText("id").filter(texts::isName);
    int times = keys.needText("times").flatMap(this::number).orElse(1);
    String group = keys.peek("id").orElse("repeat-" + (stages.size() + 1));
    List<YamlNode> items = keys.need("stages").map(Keys::itemsOf).orElse(List.of());
    Optional<List<RuleDraft>> common =
        keys.take("stage_end").map(node -> rules.rules(Keys.itemsOf(node), group));
    keys.done();
    List<StageDraft> once = new ArrayList<>();
    for (YamlNode item : items) {
      Keys.of(item, "a stage of a block", texts.problems())
          .ifPresent(inner -> once.add(stage(inner, stages.size() + once.size() + 1, draft)));
    }
    for (int round = 1; round <= times && id.isPresent(); round++) {
      for (StageDraft stage : once) {
        stages.add(stage.inRound(new RoundDraft(id.get(), round), common));
      }
    }
  }

  private StageDraft stage(Keys keys, int number, Draft draft) {
    return keys.has("rest") ? pause(keys, draft) : loaded(keys, number, draft);
  }

  // What is read in this stage besides the lines for all.
  private void measure(Keys keys, Optional<Scalar> id, Draft draft) {
    int before = texts.problems().count();
    List<YamlNode> lines = keys.items("measure");
    if (id.isPresent()) {
      draft.measure.addAll(schedules.linesOf(id.get(), lines, draft));
    }
    if (texts.problems().count() > before) {
      draft.lost.add("measure");
    }
  }

  // Without rules of its own a pause is over when its time is.
  private StageDraft pause(Keys keys, Draft draft) {
    Duration rest = keys.needText("rest").flatMap(texts::stretch).orElse(SOME_TIME);
    String group = keys.peek("id").orElse("pause");
    Optional<List<RuleDraft>> own =
        keys.take("stage_end").map(node -> rules.rules(Keys.itemsOf(node), group));
    Optional<Scalar> id = keys.needText("id").filter(texts::isName);
    measure(keys, id, draft);
    Optional<String> posture = texts.posture(keys);
    Citation source = texts.source(keys);
    keys.done();
    Span where = id.map(Scalar::span).orElse(keys.start());
    return new StageDraft(
        ScalarParser.string(id),
        where,
        rest,
        false,
        List.of(),
        posture,
        false,
        own.or(() -> Optional.of(List.of(rules.goOn(group + "-over", where)))),
        source,
        true,
        Optional.empty(),
        false,
        Optional.empty());
  }

  private StageDraft loaded(Keys keys, int number, Draft draft) {
    Optional<Scalar> lasts = keys.needText("lasts");
    boolean untilDone = lasts.filter(text -> text.value().equals(UNTIL_DONE)).isPresent();
    Optional<Duration> atMost =
        untilDone ? keys.needText("at_most").flatMap(texts::stretch) : Optional.empty();
    Optional<Duration> length = untilDone ? atMost : lasts.flatMap(texts::stretch);
    boolean warmUp = texts.yes(keys.text("warm_up"), false);
    String group = keys.peek("id").orElse("stage-" + number);
    Optional<List<RuleDraft>> own =
        keys.take("stage_end").map(node -> rules.rules(Keys.itemsOf(node), group));
    if (!untilDone) {
      keys.text("at_most");
    }
    Optional<Scalar> id = keys.needText("id").filter(texts::isName);
    measure(keys, id, draft);
    List<LoadDraft> load = loads.loads(keys);
    Optional<String> posture = texts.posture(keys);
    boolean falls =
        keys.text("falls")
            .flatMap(word -> texts.word(word, List.of("expected"), w -> w))
            .isPresent();
    Citation source = texts.source(keys);
    done(keys, load);
    if (!untilDone) {
      keys.idle("at_most", "a stage that lasts a planned time", "write lasts: until_done");
    }
    return new StageDraft(
        ScalarParser.string(id),
        id.map(Scalar::span).orElse(keys.start()),
        length.orElse(SOME_TIME),
        untilDone,
        load,
        posture,
        warmUp,
        own,
        source,
        false,
        Optional.empty(),
        falls,
        Optional.empty());
  }

  // Distinct stages that differ by a step of load: level_1, level_2 and so on.
  private void series(Keys keys, List<StageDraft> stages, Draft draft) {
    Optional<Scalar> id = keys.needText("id").filter(texts::isName);
    measure(keys, id, draft);
    Optional<Scalar> count = keys.needText("count");
    Duration lasts = keys.needText("lasts").flatMap(texts::stretch).orElse(SOME_TIME);
    boolean warmUp = texts.yes(keys.text("warm_up"), false);
    int number = count.flatMap(this::number).orElse(1);
    Span where = id.map(Scalar::span).orElse(keys.start());
    Optional<String> posture = texts.posture(keys);
    Citation source = texts.source(keys);
    List<LoadReader.Flight> flights = loads.flights(keys);
    for (int i = 0; i < number; i++) {
      int stage = i;
      List<LoadDraft> load = flights.stream().map(flight -> flight.in(stage)).toList();
      stages.add(
          new StageDraft(
              ScalarParser.string(id) + "_" + (i + 1),
              where,
              lasts,
              false,
              load,
              posture,
              warmUp,
              Optional.empty(),
              source,
              false,
              Optional.of(ScalarParser.string(id)),
              false,
              Optional.empty()));
    }
    done(keys, flights.stream().map(flight -> flight.in(0)).toList());
  }

  private Optional<Integer> number(Scalar text) {
    Optional<Integer> number =
        texts
            .quantity(text, Kind.NUMBER)
            .map(quantity -> quantity.amount())
            .filter(amount -> amount == Math.rint(amount))
            .filter(amount -> amount >= 1 && amount <= MOST_OF_A_SERIES)
            .map(Double::intValue);
    if (number.isEmpty()) {
      texts.notA(text, "a number of stages", "write a whole number from 1 to " + MOST_OF_A_SERIES);
    }
    return number;
  }

  /** The stages of a recovery; the last may last {@code until_end}, which is to the limit. */
  List<StageDraft> recoveryStages(List<YamlNode> items, Duration limit) {
    List<StageDraft> stages = new ArrayList<>();
    for (int i = 0; i < items.size(); i++) {
      boolean last = i == items.size() - 1;
      Keys.of(items.get(i), "a stage of recovery", texts.problems())
          .ifPresent(keys -> stages.add(recoveryStage(keys, last, limit)));
    }
    return stages;
  }

  private StageDraft recoveryStage(Keys keys, boolean last, Duration limit) {
    Optional<Duration> lasts = keys.needText("lasts").flatMap(text -> lasts(text, last, limit));
    Optional<Scalar> id = keys.needText("id").filter(texts::isName);
    List<LoadDraft> load = loads.loads(keys);
    Optional<String> posture = texts.posture(keys);
    Citation source = texts.source(keys);
    done(keys, load);
    return new StageDraft(
        ScalarParser.string(id),
        id.map(Scalar::span).orElse(keys.start()),
        lasts.orElse(SOME_TIME),
        false,
        load,
        posture,
        false,
        Optional.empty(),
        source,
        false,
        Optional.empty(),
        false,
        Optional.empty());
  }

  private Optional<Duration> lasts(Scalar text, boolean last, Duration limit) {
    if (!text.value().equals(UNTIL_END)) {
      return texts.stretch(text);
    }
    if (!last) {
      texts.notA(text, "a time", "only the last stage lasts until the end");
    }
    return Optional.of(limit);
  }

  private static void done(Keys keys, List<LoadDraft> loads) {
    keys.done();
    if (!loads.isEmpty()) {
      keys.idle("load", "a stage with a " + loads.get(0).name(), "leave one of them out");
    }
  }
}
