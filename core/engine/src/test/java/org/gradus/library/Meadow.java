package org.gradus.library;

import java.util.List;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.protocol.Protocol;

/** A small invented library: a stepped walk, the rule set it includes and its equations. */
final class Meadow {

  static final String WATCH =
      """
      format: 1
      kind: rules
      id: watch
      version: 1.0.0
      title: What is read on every walk, and what ends it
      sources:
        book: An invented handbook.
      signals:
        heart_rate: { kind: heart_rate, range: 25 bpm to 250 bpm, step: 1 bpm, source: book }
        effort: { kind: number, range: 0 to 10 }
      scales:
        effort_0_10: { of: effort, range: 0 to 10 }
      signs:
        dizzy: { ask: Clear in the head? }
        pain: { ask: How is the knee?, graded: 0 to 4 }
      settings:
        most_effort: { value: 7, range: 5 to 9, source: practice }
      before:
        measure:
          - { read: heart_rate, as: resting, after: 5 min }
        rules:
          - { id: not-cleared, rule: defer when not cleared, source: practice }
          - { id: slowed, rule: defer when lowers_heart_rate, source: book }
          - { id: fast, rule: defer when resting.heart_rate > 100 bpm, source: book }
      any_time:
        - { id: dizzy, rule: stop when dizzy, then: rest, do: Let the person sit., source: book }
        - { id: hard, rule: finish when effort > most_effort, during: stages, source: practice }
      recovery:
        stages:
          - { id: stroll, lasts: 2 min, speed: 2 km/h }
          - { id: sit, lasts: until_end, load: none }
        measure:
          - { read: heart_rate, each: 1 min, over: 15 s }
        rules:
          - { id: calm, rule: end when heart_rate < resting.heart_rate + 20 bpm, source: practice }
        at_most: 10 min
      """;

  static final String EQUATIONS =
      """
      format: 1
      kind: equations
      id: meadow-equations
      version: 1.0.0
      title: Costs and rates
      sources:
        book: An invented handbook.
      costs:
        - id: strolling
          of: [speed, grade]
          uptake: (4 + 0.1 * (speed in m/min) + 2 * (speed in m/min) * grade) as mL/kg/min
          sd: 8 %
          source: book
      max_heart_rates:
        - id: simple
          rate: (210 - 0.8 * (age in years)) as bpm
          sd: 11 bpm
          source: book
      """;

  static final String WALK =
      """
      format: 1
      kind: protocol
      id: meadow-walk
      version: 1.0.0
      title: A walk that gets steeper
      ergometer: treadmill
      purpose: submaximal
      for: { age: 20 years to 60 years, needs: [age, sex] }
      include: [watch]
      sources:
        book: An invented handbook.
      max_heart_rate:
        - measured when known(measured_max_heart_rate)
        - simple
      settings:
        steady_band: { value: 5 bpm, range: 4 bpm to 8 bpm, source: book }
        end_at:
          value: 130 bpm
          options:
            - { value: 130 bpm, source: book }
            - { value: 140 bpm, source: practice }
        mood: { value: calm, options: [{ value: calm }, { value: brisk }] }
      define:
        steady: abs(change(heart_rate, 1 min)) <= steady_band
      measure:
        - { read: heart_rate, each: 1 min, over: 15 s, valid_for: 30 s, if_missing: wait }
        - { read: effort, scale: effort_0_10, before_end: 15 s }
      stages:
        - { id: flat, lasts: 3 min, speed: 4 km/h, grade: 0 % }
        - { id: hill_1, lasts: 3 min, speed: 5 km/h, grade: 5 % }
        - { id: hill_2, lasts: 3 min, speed: 5 km/h, grade: 10 % }
        - { id: hill_3, lasts: 3 min, speed: 6 km/h, grade: 12 % }
      cost: strolling
      stage_end:
        - { id: enough, rule: finish when steady and heart_rate >= end_at, source: book }
        - { id: wait, rule: hold 1 min at most 2 times when not steady, source: book }
        - { id: never, rule: finish when not steady, source: book }
        - { id: next, rule: advance, source: book }
      estimates:
        - id: line
          from: steady stages, at least 2
          vo2max: extrapolate(uptake, heart_rate, max_heart_rate)
          error: { sd: 4 mL/kg/min, covers: method, source: book }
      """;

  private Meadow() {}

  /** The text with a part of it replaced; the part must be in it once. */
  static String edit(String text, String part, String by) {
    int at = text.indexOf(part);
    if (at < 0 || text.indexOf(part, at + 1) >= 0) {
      throw new IllegalArgumentException("not there once: " + part);
    }
    return text.replace(part, by);
  }

  static Library library(String walk, String watch, String equations) {
    return Library.of(
        List.of(
            SourceFile.of("walk.yaml", walk),
            SourceFile.of("watch.yaml", watch),
            SourceFile.of("equations.yaml", equations)));
  }

  static Protocol walk(String text) {
    return library(text, WATCH, EQUATIONS).protocol("meadow-walk");
  }

  /** What is wrong with the walk when a part of it is replaced: code and place. */
  static List<String> wrong(String part, String by) {
    return found(edit(WALK, part, by), WATCH, EQUATIONS);
  }

  /** What is wrong with the walk when a part of its rule set is replaced. */
  static List<String> wrongInWatch(String part, String by) {
    return found(WALK, edit(WATCH, part, by), EQUATIONS);
  }

  /** What is wrong when a part of the equations is replaced. */
  static List<String> wrongInEquations(String part, String by) {
    return found(WALK, WATCH, edit(EQUATIONS, part, by));
  }

  static List<String> found(String walk, String watch, String equations) {
    return problems(walk, watch, equations).stream()
        .map(problem -> problem.code() + " \"" + underlined(problem) + "\"")
        .toList();
  }

  static List<Diagnostic> problems(String walk, String watch, String equations) {
    try {
      library(walk, watch, equations);
      return List.of();
    } catch (FileRefused refused) {
      return refused.diagnostics();
    }
  }

  private static String underlined(Diagnostic problem) {
    String text = problem.where().text().replaceAll("\\s+", " ").strip();
    return text.length() <= 40 ? text : text.substring(0, 40) + "...";
  }
}
