package org.gradus.testkit;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/**
 * Writes protocol files at random, such as load: stages of all kinds, pauses, blocks, ramps, holds,
 * branches, rules of stages' own, settings, answers, recovery. Readings come every so many seconds
 * and stages last a multiple of that, so that every rule has what it looks at.
 */
final class ProtocolGrower {

  private final Luck luck;
  private final StringBuilder text = new StringBuilder();
  private final int each;
  // How far back the longest stage lets a rule look.
  private int back;
  private int rules;
  // Whether it has pauses, in which a drop of blood is taken that belongs to the stage before.
  private final boolean paused;

  ProtocolGrower(Random random) {
    this.luck = new Luck(random);
    this.each = luck.oneOf(30, 60);
    this.back = each;
    this.paused = luck.chance(0.4);
  }

  private ProtocolGrower line(String line, Object... parts) {
    text.append(parts.length == 0 ? line : String.format(java.util.Locale.ROOT, line, parts))
        .append('\n');
    return this;
  }

  String text() {
    head();
    tellings();
    definitions();
    before();
    measure();
    stages();
    list("stage_end", "  ", stageEnd(true));
    list("any_time", "  ", anyTime());
    if (luck.chance(0.85)) {
      recovery();
    }
    line(
        "unmeasured: { wait: %d s, then: %s }",
        luck.oneOf(0, 30, 90, 120), luck.oneOf("finish", "finish", "stop"));
    line("estimates:");
    line("  - { id: way, from: last stage, vo2max: (20 + (stage.covered in km)) as mL/kg/min }");
    line("  - { id: late, from: finish, vo2max: (20 + (exercise.time in min)) as mL/kg/min }");
    line("  - { id: last, from: last stage, vo2max: (10 * (stage.speed in m/s)) as mL/kg/min }");
    if (paused) {
      line("  - id: drops").line("    from: sampled stages");
      line("    vo2max: (20 + (stage.lactate in mmol/L)) as mL/kg/min");
    }
    return text.toString();
  }

  private void head() {
    line("format: 1").line("kind: protocol").line("id: grown").line("version: 1.0.0");
    line("title: Grown at random").line("ergometer: treadmill").line("purpose: submaximal");
    line(
        "for: { age: 18 years to 65 years, needs: [age, sex], outside: %s }",
        luck.oneOf("defer", "caution"));
    line("settings:");
    line("  band: { value: %d bpm, range: 2 bpm to 20 bpm }", luck.between(3, 12));
    line("  top: { value: %d bpm, range: 100 bpm to 190 bpm }", luck.between(110, 170));
    line(
        "  mood: { value: %s, options: [{ value: calm }, { value: brisk }] }",
        luck.oneOf("calm", "brisk"));
    line("  stretch: { value: %d s, range: 10 s to 30 s }", luck.oneOf(10, 15, 30));
  }

  private void tellings() {
    line("signals:");
    line(
        "  heart_rate: { kind: heart_rate, range: 25 bpm to 250 bpm, step: %d bpm }",
        luck.oneOf(1, 1, 4));
    line("  systolic: { kind: pressure, range: 40 mmHg to 320 mmHg, step: 2 mmHg }");
    line("  diastolic: { kind: pressure, range: 20 mmHg to 200 mmHg, below: systolic }");
    line("  effort: { kind: number, range: 0 to 10 }");
    line("  covered: { kind: length, range: 100 m to 5000 m, step: 10 m }");
    if (paused) {
      line("  lactate: { kind: concentration, range: 0.3 mmol/L to 25 mmol/L, step: 0.1 mmol/L }");
    }
    line("scales:").line("  effort_0_10: { of: effort, range: 0 to 10 }");
    line("loads:").line("  speed: { range: 0 km/h to 9 km/h }");
    line("  grade: { range: 0 % to 12 % }");
    line("signs:");
    line("  dizzy: { ask: Clear in the head? }");
    line("  pain: { ask: How is the knee?, graded: 0 to 4 }");
    line("  rail: { watch: Weight on the rail, lasts: until withdrawn }");
    line("inputs:");
    line(
        "  fit: { kind: yes-no, ask: Fit?%s }",
        luck.oneOf("", ", default: no", ", unless: age > 60 years"));
    line(
        "  pace: { kind: speed, ask: Pace, %s }",
        luck.oneOf(
            "range: 2 km/h to 7 km/h",
            "range: 2 km/h to 7 km/h, default: if fit then 6 km/h else 4 km/h",
            "options: [2 km/h, 4 km/h, { value: 6 km/h, when: fit }]"));
  }

  private void definitions() {
    line("define:");
    line("  steady: abs(change(heart_rate, %d s)) <= band", each);
    line("  high: heart_rate >= top");
    line("  usable: steady and heart_rate > 100 bpm");
    if (paused) {
      line("  sampled: known(lactate)");
    }
    line("tables:").line("  ceiling:").line("    of: age").line("    gives: heart_rate");
    line("    points: [[20 years, %d bpm], [60 years, 120 bpm]]", luck.between(140, 180));
    line("    between: %s", luck.oneOf("line", "step"));
    line("    beyond: %s", luck.oneOf("nearest", "refuse"));
    line("    source: practice");
  }

  private void before() {
    line("before:");
    line("  measure:")
        .line("    - { read: heart_rate, as: resting, after: %d min }", luck.between(0, 5));
    line("  rules:").line("    - defer when lowers_heart_rate");
    if (luck.chance(0.5)) {
      line("    - defer when resting.heart_rate > 110 bpm");
    }
    line("    - caution when fit");
  }

  private void measure() {
    line("measure:");
    line(
        "  - { read: heart_rate, each: %d s, over: %s, valid_for: %d s, if_missing: %s }",
        each, luck.oneOf("stretch", "15 s"), each, luck.oneOf("wait", "wait", "go_on"));
    line(
        "  - { read: [systolic, diastolic], before_end: %d s, takes: 20 s, late: 60 s, if_missing: %s }",
        luck.oneOf(20, 45), luck.oneOf("go_on", "go_on", "wait", "finish"));
    line(
        "  - { read: effort, scale: effort_0_10, before_end: 10 s, within: %d s%s }",
        luck.oneOf(10, 25), paused && luck.chance(0.4) ? ", in: stages" : "");
    line(
        "  - { read: gait, choices: [even, uneven], before_end: 30 s, if_missing: %s }",
        luck.oneOf("go_on", "wait"));
    if (paused) {
      line(
          "  - { read: lactate, at: 20 s, late: %d s, in: [pauses], if_missing: %s }",
          luck.oneOf(30, 120), luck.oneOf("wait", "wait", "go_on", "finish"));
    }
    if (luck.chance(0.5)) {
      // Nothing but an estimate asks for it.
      line(
          "  - { read: covered, before_end: 0 s, late: %d s, if_missing: %s }",
          luck.oneOf(15, 60, 300), luck.oneOf("wait", "wait", "go_on"));
    }
  }

  private void stages() {
    line("stages:");
    int number = luck.between(2, 5);
    for (int i = 1; i <= number; i++) {
      boolean last = i == number;
      if (luck.chance(0.12)) {
        line(
            "  - series: { id: s%d, count: %d, lasts: %d s, speed: { from: 3 km/h, step: 0.5 km/h }, grade: 1 %% }",
            i, luck.between(1, 3), 2 * each);
        continue;
      }
      if (luck.chance(0.15)) {
        block(i);
        continue;
      }
      if (paused && i > 1 && (i == 2 || luck.chance(0.4))) {
        pause("  ", "p" + i);
      }
      line("  - id: s%d", i);
      if (luck.chance(0.12)) {
        line("    lasts: until_done").line("    at_most: %d s", each * luck.between(2, 8));
        load(i);
        list(
            "    stage_end",
            "      ",
            List.of(
                luck.chance(0.3) ? "hold 30 s at most 1 time" : "caution when rail", "advance"));
        continue;
      }
      int readings = luck.between(2, 5);
      back = Math.max(back, each * Math.min(2, readings - 1));
      line("    lasts: %d s", each * readings);
      if (i == 1 && luck.chance(0.3)) {
        line("    warm_up: yes");
      }
      boolean ramped = load(i);
      if (luck.chance(0.3)) {
        List<String> own = new ArrayList<>(stageEnd(false));
        if (!ramped) {
          guided(own);
        }
        if (!last && luck.chance(0.7)) {
          own.add(
              0,
              "advance to "
                  + "s"
                  + number
                  + "x when heart_rate < "
                  + luck.between(80, 120)
                  + " bpm");
        }
        own.add("advance");
        list("    stage_end", "      ", own);
      }
    }
    if (paused) {
      pause("  ", "before_last");
    }
    // A stage of a known name that branches can lead to.
    line("  - id: s%dx", number).line("    lasts: %d s", 2 * each);
    load(number);
  }

  // Rounds of a hard and an easy stage; the rules of the block's own are those of each round.
  private void block(int i) {
    line("  - repeat:").line("      id: b%d", i).line("      times: %d", luck.between(2, 3));
    line("      stages:");
    line(
        "        - { id: h%d, lasts: %d s, speed: %s, grade: 2 %% }",
        i, 2 * each, luck.oneOf("6 km/h", "3 km/h + 1 km/h * b" + i + ".number"));
    line("        - { id: e%d, lasts: %d s, speed: 3 km/h, grade: 0 %% }", i, 2 * each);
    if (paused) {
      pause("        ", "r" + i);
    }
    if (luck.chance(0.6)) {
      List<String> own = new ArrayList<>();
      add(own, 0.5, "finish when b" + i + ".number >= 2 and heart_rate > 130 bpm");
      guided(own);
      add(own, 0.4, "hold " + each + " s at most 1 time when not steady");
      own.add("advance");
      list("      stage_end", "        ", own);
    }
  }

  // A load that a reading guides, up and down.
  private void guided(List<String> own) {
    add(own, 0.5, "change speed by 0.5 km/h at most 3 times when heart_rate < 120 bpm");
    add(own, 0.3, "change speed by -1 km/h at most 2 times when heart_rate > 150 bpm");
  }

  private void pause(String indent, String id) {
    line(indent + "- id: " + id).line(indent + "  rest: %d s", luck.oneOf(30, 45, 60));
    if (luck.chance(0.3)) {
      List<String> own = new ArrayList<>();
      add(own, 0.5, "hold 30 s at most 1 time when lactate > 3 mmol/L");
      add(own, 0.4, "finish when lactate > 6 mmol/L");
      own.add("advance");
      list(indent + "  stage_end", indent + "    ", own);
    }
  }

  // Whether it is a ramp.
  private boolean load(int number) {
    line(
        "    speed: %s",
        luck.oneOf(
            luck.between(2, 7) + " km/h",
            "pace",
            "pace + 0.5 km/h",
            number == 1 ? "1 km/h" : "\"lesser(previous_stage.speed + 1 km/h, 9 km/h)\""));
    String grade =
        luck.oneOf(
            luck.below(12) + " %",
            "if fit then 5 % else 2 %",
            "{ from: 0 %, step: 0.5 %, every: "
                + luck.oneOf(10, 20, 45)
                + " s, to: "
                + luck.between(2, 9)
                + " % }",
            "{ from: 8 %, step: -1 %, every: 20 s, to: 3 % }");
    line("    grade: %s", grade);
    return grade.startsWith("{");
  }

  private List<String> stageEnd(boolean closed) {
    List<String> list = new ArrayList<>();
    add(list, 0.6, "finish when steady and high");
    add(list, 0.3, "finish when count(usable) >= " + luck.between(1, 2));
    add(
        list,
        0.2,
        "offer finish when heart_rate > lookup(ceiling, lesser(greater(age, 20 years), 60 years))");
    add(list, 0.2, "offer finish when gait is uneven");
    add(list, 0.3, "finish when mood is brisk and heart_rate > 120 bpm");
    add(list, 0.4, "offer finish when usable");
    add(list, 0.2, "offer hold " + each + " s at most 1 time when high");
    add(list, 0.2, "offer advance when not steady");
    add(
        list,
        0.7,
        "hold "
            + (luck.chance(0.15) ? 25 : each * luck.between(1, 2))
            + " s at most "
            + luck.between(1, 3)
            + " times when not steady");
    if (closed) {
      // Of another length than the first: what is given late must not hang on which ends when.
      add(list, 0.3, "hold " + each * luck.between(1, 3) + " s at most 1 time");
    }
    add(list, 0.4, "finish when not steady");
    add(list, 0.3, "caution when heart_rate > 140 bpm");
    if (closed) {
      list.add("advance");
    }
    return list;
  }

  private List<String> anyTime() {
    List<String> list = new ArrayList<>();
    list.add("stop when dizzy|then: " + luck.oneOf("rest", "cool_down"));
    add(list, 0.6, "stop when pain >= 3|then: cool_down" + luck.oneOf("", ", alarming: no"));
    add(list, 0.6, "stop when systolic > 220 mmHg|confirm: 60 s");
    add(
        list,
        0.5,
        "stop when known(previous_stage.systolic) and systolic < previous_stage.systolic - 20 mmHg|confirm: 90 s, during: stages");
    add(
        list,
        0.25,
        "stop when stage.time >= 100 s and heart_rate < 85 bpm|confirm: 45 s, during: stages");
    clocks(list);
    add(list, 0.6, "finish when heart_rate > top + 10 bpm|confirm: 15 s, during: stages");
    add(list, 0.4, "finish when effort > 8|during: stages");
    add(list, 0.3, "finish when stage.time > 20 min|during: stages");
    add(list, 0.5, "caution when rail");
    add(list, 0.25, "stop when change(heart_rate, " + each + " s) > 25 bpm|during: stages");
    add(list, 0.2, "stop when earlier(heart_rate, " + each + " s) > 180 bpm|confirm: 40 s");
    add(list, 0.25, "finish when average(heart_rate, " + 2 * each + " s) > top|during: stages");
    add(list, 0.2, "finish when abs(change(heart_rate, " + back + " s)) < 3 bpm|during: stages");
    add(list, 0.15, "caution when highest(heart_rate) > top");
    if (paused) {
      add(list, 0.4, "stop when lactate > 14 mmol/L|confirm: 40 s");
      add(
          list,
          0.5,
          "finish when known(previous_stage.lactate) and previous_stage.lactate > 9 mmol/L|during:"
              + " stages");
    }
    add(list, 0.25, "stop when rail or systolic > 200 mmHg|confirm: 60 s");
    add(list, 0.25, "stop when systolic > 190 mmHg or heart_rate > 170 bpm|confirm: 75 s");
    add(list, 0.2, "stop when systolic > 170 mmHg and heart_rate > 150 bpm|confirm: 75 s");
    return list;
  }

  // Rules that hold for a moment, between two seconds, or long after everything else.
  private void clocks(List<String> list) {
    String clock = luck.oneOf("stage.time", "test.time", "test.time");
    double at = luck.between(160, 2800) / 8.0;
    add(list, 0.2, "stop when " + clock + " = " + at + " s and heart_rate > 100 bpm|then: rest");
    add(
        list,
        0.15,
        "stop when "
            + luck.oneOf("test.time = ", "stage.time = ")
            + luck.between(8, 60) / 8.0
            + " min|then: cool_down, during: stages");
    add(list, 0.2, "stop when " + between(clock, 0.6) + " and not (heart_rate > 110 bpm)");
    add(list, 0.2, "stop when " + between(clock, 40) + " and heart_rate < 130 bpm|confirm: 20 s");
    add(
        list,
        0.15,
        "finish when "
            + between(clock, 25)
            + " and heart_rate > 80 bpm|during: stages, confirm: 10 s");
    add(list, 0.2, "stop when heart_rate > 140 bpm or " + between(clock, 9) + "|confirm: 40 s");
    add(list, 0.15, "finish when " + between("test.time", 30) + "|during: stages");
    add(
        list,
        0.2,
        "\"stop when heart_rate > (60 + 0.25 * (stage.time in s)) as bpm\"|confirm: 30 s, during: stages");
    add(list, 0.15, "caution when " + between(clock, 12.5));
  }

  private String between(String clock, double length) {
    double from = luck.between(160, 2800) / 8.0 + 0.2;
    return clock + " between " + from + " s and " + (from + length) + " s";
  }

  private void add(List<String> list, double share, String rule) {
    if (luck.chance(share)) {
      list.add(rule);
    }
  }

  private void recovery() {
    line("recovery:").line("  stages:");
    if (luck.chance(0.7)) {
      line(
          "    - { id: slow, lasts: %d s, speed: %s }",
          luck.oneOf(60, 120), luck.oneOf("2 km/h", "pace"));
    }
    line("    - { id: sit, lasts: until_end, load: none, posture: seated }");
    line("  measure:");
    line("    - { read: heart_rate, each: %d s, over: 15 s }", each);
    line("    - { read: [systolic, diastolic], each: 2 min, takes: 20 s }");
    if (luck.chance(0.85)) {
      line("  rules:");
      line(
          "    - end when recovery.time >= %d s and heart_rate < %d bpm",
          luck.oneOf(60, 120), luck.between(90, 130));
      if (luck.chance(0.5)) {
        line("    - caution when systolic < 90 mmHg");
      }
      lookingBack();
      if (luck.chance(0.3)) {
        line(
            "    - { rule: stop when recovery.time = %s s, id: moment }",
            luck.between(1, 1800) / 8.0);
      }
      if (luck.chance(0.3)) {
        line(
            "    - { rule: \"stop when %s and heart_rate > 100 bpm\", id: while }",
            between("test.time", 20));
      }
    }
    line("  at_most: %d s", luck.oneOf(240, 300, 600));
  }

  private void lookingBack() {
    List<String> rules = new ArrayList<>();
    add(rules, 0.3, "end when abs(change(heart_rate, " + each + " s)) <= band and not high");
    add(rules, 0.2, "end when average(heart_rate, " + 2 * each + " s) < 110 bpm");
    add(rules, 0.2, "end when steady and count(usable) >= 1");
    add(rules, 0.2, "stop when earlier(heart_rate, " + each + " s) > 175 bpm");
    add(rules, 0.2, "stop when change(heart_rate, " + 2 * each + " s) > 20 bpm");
    add(rules, 0.2, "caution when highest(heart_rate) > 170 bpm");
    rules.forEach(rule -> line("    - " + rule));
  }

  // Rules have ids so that none is twice in one file.
  private void list(String key, String indent, List<String> sentences) {
    line(key + ":");
    for (String sentence : sentences) {
      String[] parts = sentence.split("\\|", -1);
      line(indent + "- rule: " + parts[0]).line(indent + "  id: r" + ++rules);
      if (parts.length > 1) {
        for (String more : parts[1].split(", ", -1)) {
          line(indent + "  " + more);
        }
      }
    }
  }
}
