package org.gradus.review;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Times.at;

import java.time.Duration;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.review.EdgeCase.Side;
import org.gradus.session.Decision;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.junit.jupiter.api.Test;

/** The edges of rules that ask for a reading of the stage before, and the tests that lead there. */
class StageBeforeTest {

  private static final String FILE =
      """
      format: 1
      kind: protocol
      id: mill
      version: 1.0.0
      title: An invented walk that ends where the rate no longer rises
      ergometer: treadmill
      purpose: submaximal
      for: { age: 18 years to 65 years, needs: [age] }
      signals:
        heart_rate: { kind: heart_rate, range: 40 bpm to 220 bpm, step: 1 bpm, source: practice }
      usual:
        heart_rate: { range: 60 bpm to 180 bpm, source: practice }
      before:
        rules: [{ id: slowed, rule: defer when lowers_heart_rate }]
      define:
        rise: { value: heart_rate - previous_stage.heart_rate, source: practice }
      measure: [{ read: heart_rate, each: 1 min, if_missing: wait }]
      stages:
        - { id: walk_1, lasts: 3 min, speed: 4 km/h, grade: 2 % }
        - { id: walk_2, lasts: 3 min, speed: 5 km/h, grade: 4 % }
        - { id: walk_3, lasts: 3 min, speed: 5 km/h, grade: 8 % }
      stage_end:
        - id: level
          rule: finish when known(previous_stage.heart_rate) and RULE
        - { id: next, rule: advance }
      """;

  private static Protocol mill(String rule) {
    String text = FILE.replace("RULE", rule);
    return Library.of(List.of(SourceFile.of("mill.yaml", text))).protocol("mill");
  }

  private static List<String> edges(String rule, String comparison) {
    return EdgeCases.of(mill(rule)).stream()
        .filter(one -> one.comparison().equals(comparison))
        .map(StageBeforeTest::line)
        .toList();
  }

  private static String line(EdgeCase one) {
    return String.join(
        " ", one.moment() + ":", one.subject(), one.value().toString(), one.holds() + "");
  }

  // At 110 bpm a rise of 3 bpm began at 107 bpm: from 108 bpm it is only one of 2 bpm.
  @Test
  void theReadingOfTheStageBeforeIsVaried() {
    assertThat(edges("heart_rate between 110 bpm and 110 bpm and rise < 3 bpm", "rise < 3 bpm"))
        .endsWith(
            "walk_2 at 3:00: previous_stage.heart_rate 106 bpm FALSE",
            "walk_2 at 3:00: previous_stage.heart_rate 107 bpm FALSE",
            "walk_2 at 3:00: previous_stage.heart_rate 108 bpm TRUE")
        .hasSize(6);
  }

  // The rise is that of 2 bpm at 119, 120 and 121 bpm: only so is 120 bpm an edge of the whole
  // rule.
  @Test
  void itMovesAlongWhereTheComparisonIsAboutSomethingElse() {
    assertThat(
            edges(
                "heart_rate >= 120 bpm and rise between 2 bpm and 2 bpm", "heart_rate >= 120 bpm"))
        .containsExactly(
            "walk_2 at 3:00: heart_rate 119 bpm FALSE",
            "walk_2 at 3:00: heart_rate 120 bpm TRUE",
            "walk_2 at 3:00: heart_rate 121 bpm TRUE");
  }

  @Test
  void aTestWithTheseReadingsIsDecidedSo() {
    Protocol mill = mill("rise < 3 bpm");
    List<EdgeCase> edges =
        EdgeCases.of(mill).stream().filter(one -> one.rule().equals("level")).toList();
    assertThat(edges).hasSize(6);
    for (EdgeCase edge : edges) {
      double here = edge.subject().equals("heart_rate") ? amount(edge) : told("^heart_rate", edge);
      double before =
          edge.subject().equals("heart_rate")
              ? told("previous_stage.heart_rate", edge)
              : amount(edge);
      assertThat(decided(mill, before, here)).as(edge.toString()).isEqualTo(edge.decides());
      boolean moreRise = edge.subject().equals("heart_rate");
      double beyond = edge.side() == Side.AT ? 0 : edge.side() == Side.ABOVE ? 1 : -1;
      assertThat(here - before).isEqualTo(moreRise ? 3 + beyond : 3 - beyond);
    }
  }

  private static double amount(EdgeCase edge) {
    return edge.value().amount();
  }

  private static double told(String of, EdgeCase edge) {
    Matcher matcher = Pattern.compile(of + " ([\\d.]+) bpm").matcher(edge.others());
    assertThat(matcher.find()).as(edge.others()).isTrue();
    return Double.parseDouble(matcher.group(1));
  }

  private static String decided(Protocol mill, double before, double here) {
    Session session = Session.open(mill, Person.builder().age(40).lowersHeartRate(false).build());
    session.follow(session.decide(at("0:00")));
    session.follow(walked(session, 1, before));
    Decision decision = walked(session, 4, here);
    String verb = decision.verdict() instanceof Verdict.Finish ? "finish" : "advance";
    return verb + " (" + decision.because().orElseThrow().rule() + ")";
  }

  private static Decision walked(Session session, int from, double rate) {
    session.record(Duration.ofMinutes(from), heartRate(rate));
    session.record(Duration.ofMinutes(from + 1), heartRate(rate));
    return session.record(Duration.ofMinutes(from + 2), heartRate(rate));
  }
}
