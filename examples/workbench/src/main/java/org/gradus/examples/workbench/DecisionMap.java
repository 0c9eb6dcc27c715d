package org.gradus.examples.workbench;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.gradus.history.TestRecord;
import org.gradus.session.Because;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Outcome;
import org.gradus.session.Retold;
import org.gradus.session.Verdict;

/** What was done in a test, each time beside what was recommended and why, for programs. */
final class DecisionMap {

  private final List<TestRecord.Entry> entries;
  private final List<Retold> test;

  DecisionMap(Outcome outcome, TestRecord record) {
    this.entries = record.entries();
    List<Event> events = entries.stream().map(TestRecord.Entry::event).toList();
    this.test = Retold.of(outcome.protocol(), outcome.person(), events);
  }

  /** What the tester did: followed a recommendation, decided otherwise, broke the test off. */
  List<Map<String, Object>> decisions() {
    List<Map<String, Object>> decisions = new ArrayList<>();
    for (Retold told : test) {
      Event event = told.event();
      if (event instanceof Event.Followed followed) {
        decisions.add(decision(told, "followed", verdict(followed.verdict()), ""));
      } else if (event instanceof Event.Overridden overridden) {
        decisions.add(
            decision(told, "overridden", verdict(overridden.verdict()), overridden.reason()));
      } else if (event instanceof Event.Abandoned abandoned) {
        decisions.add(decision(told, "abandoned", Map.of(), abandoned.reason()));
      }
    }
    return decisions;
  }

  private Map<String, Object> decision(
      Retold told, String act, Map<String, Object> verdict, String reason) {
    Decision before = told.before();
    Map<String, Object> map =
        Named.values("event", told.number(), "at", told.event().at().toSeconds(), "act", act);
    map.put("phase", Named.word(before.phase()));
    before.stage().ifPresent(stage -> map.put("stage", stage));
    map.putAll(verdict);
    Named.put(map, "reason", reason);
    map.put("recommended", recommended(before));
    return map;
  }

  private static Map<String, Object> verdict(Verdict verdict) {
    return Named.values("verdict", verdict.word(), "words", verdict.toString());
  }

  private static Map<String, Object> recommended(Decision decision) {
    Map<String, Object> map = new LinkedHashMap<>(verdict(decision.verdict()));
    map.put("couldFlip", decision.firmness().couldFlip());
    return decision.because().map(because -> because(map, because)).orElse(map);
  }

  private static Map<String, Object> because(Map<String, Object> map, Because because) {
    map.put("rule", because.rule());
    map.put("why", because.shortly());
    because.filled().ifPresent(filled -> map.put("numbers", filled.toString()));
    return Named.sourced(map, because.source());
  }

  /** What was followed and would have been otherwise, had been known what was told later. */
  List<Map<String, Object>> hindsight() {
    List<Map<String, Object>> all = new ArrayList<>();
    for (TestRecord.Entry entry : entries) {
      entry
          .hindsight()
          .forEach(
              one ->
                  all.add(
                      Named.values(
                          "event",
                          one.event(),
                          "toldBy",
                          entry.number(),
                          "then",
                          one.then(),
                          "now",
                          one.now())));
    }
    return all;
  }
}
