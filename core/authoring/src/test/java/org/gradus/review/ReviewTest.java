package org.gradus.review;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

/** One planted fault of each kind is reported, and nothing else. */
class ReviewTest {

  private static final String ENOUGH =
      "  - { id: enough, rule: finish when steady and heart_rate >= end_at, source: book }\n";

  /** Each fault with the finding it should give: its code and what it is about. */
  private static final Map<Check, List<String>> PLANTED = new LinkedHashMap<>();

  private static Lane planted(Check check) {
    Lane lane = Lane.sound();
    return switch (check) {
      case SHADOWED_RULE ->
          lane.with(
              ENOUGH,
              ENOUGH
                  + "  - { id: late, rule: finish when steady and heart_rate >= end_at + 10 bpm,"
                  + " source: book }\n");
      case OVERLAPPING_RULES ->
          lane.with(
              ENOUGH,
              ENOUGH
                      .replace("enough", "on")
                      .replace(
                          "finish when steady and heart_rate >= end_at",
                          "advance when steady and heart_rate between 115 bpm and 125 bpm")
                  + ENOUGH);
      case NEVER_HOLDS ->
          lane.with(
              "  - { id: dizzy,",
              "  - { id: odd, rule: stop when heart_rate + 5 bpm < heart_rate, source: book }\n"
                  + "  - { id: dizzy,");
      case UNMEASURED_SIGNAL ->
          lane.with("scale: effort_0_10, before_end: 15 s", "scale: effort_0_10, at: 4 min");
      case NARROW_BAND -> lane.with("value: 5 bpm, range: 1", "value: 3 bpm, range: 1");
      case FIXED_LIMIT -> lane.with("value: 120 bpm", "value: 140 bpm");
      case UNUSUAL_FIGURE ->
          lane.with("id: hill_3, lasts: 3 min, speed: 6", "id: hill_3, lasts: 3 min, speed: 16");
      case CLASS_GAP ->
          lane.with(
              "estimates:",
              """
              result:
                - { id: low, rule: caution when effort between 0 and 3, source: book }
                - { id: mid, rule: caution when effort between 4 and 7, source: book }
              estimates:""");
      case MIXED_AND_OR ->
          lane.with(
              "estimates:",
              """
              result:
                - { id: low, rule: caution when effort > 5 and effort < 7 or effort > 9, source: book }
              estimates:""");
      case UPTAKE_NOT_RISING ->
          lane.with("speed: 5 km/h, grade: 10 %", "speed: 5 km/h, grade: 4 %");
      case NO_SOURCE ->
          lane.with(
              "steady_band: { value: 5 bpm, range: 1 bpm to 8 bpm, source: book }",
              "steady_band: { value: 5 bpm, range: 1 bpm to 8 bpm }");
      case MISSING_SAFETY_RULE ->
          lane.with(
              "    - { id: not-cleared, rule: defer when not cleared, source: practice }\n", "");
      case REPLACED_PART ->
          lane.with(
              "  end_at:", "  most_effort: { value: 6, range: 5 to 9, source: book }\n  end_at:");
      case DROPPED_RULE -> lane.with("  - lane-set", "  - { use: lane-set, without: [hard] }");
      case TEST_LENGTH -> lane.with("id: hill_3, lasts: 3 min", "id: hill_3, lasts: 20 min");
      case IDLE_ACCEPTANCE ->
          lane.with(
              "estimates:",
              """
              accept:
                - { finding: narrow-band, reason: The count is long. }
              estimates:""");
    };
  }

  static {
    PLANTED.put(Check.SHADOWED_RULE, List.of("shadowed-rule late"));
    PLANTED.put(Check.OVERLAPPING_RULES, List.of("overlapping-rules enough"));
    PLANTED.put(Check.NEVER_HOLDS, List.of("never-holds odd"));
    PLANTED.put(Check.UNMEASURED_SIGNAL, List.of("unmeasured-signal effort"));
    PLANTED.put(Check.NARROW_BAND, List.of("narrow-band enough"));
    PLANTED.put(Check.FIXED_LIMIT, List.of("fixed-limit enough"));
    PLANTED.put(Check.UNUSUAL_FIGURE, List.of("unusual-figure hill_3"));
    PLANTED.put(Check.MIXED_AND_OR, List.of("mixed-and-or low"));
    PLANTED.put(Check.CLASS_GAP, List.of("class-gap effort"));
    PLANTED.put(Check.UPTAKE_NOT_RISING, List.of("uptake-not-rising hill_2"));
    PLANTED.put(Check.NO_SOURCE, List.of("no-source steady_band"));
    PLANTED.put(Check.MISSING_SAFETY_RULE, List.of("missing-safety-rule clearance"));
    PLANTED.put(Check.REPLACED_PART, List.of("replaced-part most_effort"));
    PLANTED.put(Check.DROPPED_RULE, List.of("dropped-rule hard"));
    PLANTED.put(Check.TEST_LENGTH, List.of("test-length test.time"));
    PLANTED.put(Check.IDLE_ACCEPTANCE, List.of("idle-acceptance narrow-band"));
  }

  private static List<String> found(Review review) {
    return review.findings().stream()
        .map(finding -> finding.check().code() + " " + finding.about())
        .toList();
  }

  @Test
  void nothingIsFoundInASoundProtocol() {
    Review review = Lane.sound().review();
    assertThat(review.findings()).isEmpty();
    assertThat(review.isClean()).isTrue();
    assertThat(review.points()).isPositive();
  }

  @Test
  void eachPlantedFaultIsFoundAndNothingElse() {
    assertThat(PLANTED.keySet()).isEqualTo(EnumSet.allOf(Check.class));
    Map<Check, List<String>> found = new LinkedHashMap<>();
    PLANTED.keySet().forEach(check -> found.put(check, found(planted(check).review())));
    assertThat(found).isEqualTo(PLANTED);
  }

  @Test
  void whatTheFileAcceptsIsCountedAndNotReported() {
    Review review =
        planted(Check.NARROW_BAND)
            .with(
                "estimates:",
                """
                accept:
                  - finding: narrow-band
                    of: enough
                    reason: A strap is worn in this laboratory.
                estimates:""")
            .review();
    assertThat(review.findings()).isEmpty();
    assertThat(review.accepted())
        .singleElement()
        .satisfies(
            accepted -> {
              assertThat(accepted.finding().about()).isEqualTo("enough");
              assertThat(accepted.reason()).isEqualTo("A strap is worn in this laboratory.");
            });
  }

  @Test
  void whatIsAcceptedOfSomethingElseIsStillReported() {
    Review review =
        planted(Check.NARROW_BAND)
            .with(
                "estimates:",
                """
                accept:
                  - { finding: narrow-band, of: never, reason: No. }
                estimates:""")
            .review();
    assertThat(found(review)).containsExactly("narrow-band enough", "idle-acceptance narrow-band");
  }

  @Test
  void aCeilingThatIsTheSameForAllAgesIsNone() {
    Review review =
        Lane.sound().with("heart_rate > 85 % of max_heart_rate", "heart_rate > 180 bpm").review();
    assertThat(found(review)).contains("missing-safety-rule ceiling");
  }

  @Test
  void whoAcceptsThatASafetyRuleIsMissingSaysWhich() {
    Review review =
        planted(Check.MISSING_SAFETY_RULE)
            .with(
                "estimates:",
                """
                accept:
                  - { finding: missing-safety-rule, reason: We know everybody. }
                estimates:""")
            .review();
    assertThat(found(review))
        .containsExactly("missing-safety-rule clearance", "idle-acceptance missing-safety-rule");
    assertThat(review.findings().get(1).message()).contains("add of");
  }

  @Test
  void aFindingShowsTheLineAnExampleAndWhatToDo() {
    assertThat(planted(Check.FIXED_LIMIT).review().findings().get(0).toString())
        .isEqualTo(
            """
            danger[fixed-limit] lane-walk.yaml:33:48: the fixed limit of 140 bpm passes the ceiling \
            from an age of 57 years on
              33 |   - { id: enough, rule: finish when steady and heart_rate >= end_at, source: book }
                 |                                                ^^^^^^^^^^^^^^^^^^^^
              example: at 57 years the ceiling 85 % of max_heart_rate is 139.7 bpm
              help: write lesser(limit, ceiling less some beats)""");
  }

  // Stages of 3 minutes: one to the first finish; four with a hold and a wait of 90 s each.
  @Test
  void theShortestAndTheLongestTestAreTold() {
    Review.Lengths lengths = Lane.sound().review().lengths();
    assertThat(lengths.shortest()).isEqualTo(Duration.ofMinutes(3));
    assertThat(lengths.exercise()).isEqualTo(Duration.ofMinutes(4 * 3 + 4 + 4 * 3 / 2));
    assertThat(lengths.whole()).isEqualTo(Duration.ofMinutes(22 + 10));
  }

  @Test
  void theSameProtocolGivesTheSameReview() {
    assertThat(Lane.sound().review()).isEqualTo(Lane.sound().review());
  }

  @Test
  void everyCheckIsExplained() throws IOException {
    String page = Files.readString(Path.of("..", "REVIEW.md"));
    for (Check check : Check.values()) {
      assertThat(page).contains("| `" + check.code() + "` | " + check.severity().word() + " |");
    }
  }

  @Test
  void codesAreWordsAndDifferent() {
    Set<String> codes = new TreeSet<>();
    for (Check check : Check.values()) {
      assertThat(check.code()).matches("[a-z]+(-[a-z]+)*");
      assertThat(Check.named(check.code())).contains(check);
      codes.add(check.code());
    }
    assertThat(codes).hasSameSizeAs(Check.values());
    assertThat(Check.named("nonsense")).isEmpty();
  }

  @Test
  void widerAgesAndARecoveryOfItsOwnAreFoundWhereTheyStand() {
    Lane lane =
        Lane.sound()
            .with(
                "recovery:\n  stages:", "for: { age: 30 years to 50 years }\nrecovery:\n  stages:")
            .with(
                "estimates:",
                """
                recovery:
                  stages:
                    - { id: sit, lasts: until_end, load: none }
                  rules:
                    - { id: later, rule: end when recovery.time >= 5 min, source: book }
                  at_most: 10 min
                estimates:""");
    assertThat(lane.review().findings())
        .filteredOn(finding -> finding.check() == Check.REPLACED_PART)
        .extracting(finding -> finding.where().file().name() + " " + finding.where().text())
        .containsExactlyInAnyOrder("lane-walk.yaml for", "lane-walk.yaml recovery");
  }
}
