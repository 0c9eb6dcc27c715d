package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.protocol.Protocol;
import org.gradus.review.Check;
import org.gradus.review.Review;
import org.gradus.review.ReviewFinding;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What authors read who write a file as people write everyday texts. */
class AuthorMessagesTest {

  private static final String UNSTEADY = "finish when not steady";

  private static final String FILE =
      """
      format: 1
      kind: protocol
      id: two-walks
      version: 1.0.0
      title: Two gentle walks
      ergometer: treadmill
      purpose: submaximal
      for: { age: 18 years to 65 years, needs: [age, sex, mass] }
      include:
        - common-signals
        - adult-readiness
        - adult-stop-signs
        - treadmill-conditions
        - submaximal-ceiling
        - steady-heart-rate
        - walking-recovery
      max_heart_rate:
        - none when lowers_heart_rate
        - general_1971
      before:
        rules:
          - { id: rate-guided, rule: defer when lowers_heart_rate, source: practice }
      measure:
        - { read: heart_rate, each: 1 min, over: 15 s, valid_for: 30 s, if_missing: wait }
        - { read: [systolic, diastolic], before_end: 45 s, takes: 40 s, late: 90 s }
        - { read: rpe, scale: rpe_6_20, before_end: 15 s }
      stages:
        - { id: slow, lasts: 4 min, speed: 3 km/h, grade: 4 %, source: practice }
        - { id: brisk, lasts: 4 min, speed: 5 km/h, grade: 4 %, source: practice }
      cost: walking
      stage_end:
        - { id: longer, rule: hold 1 min at most 2 times when not steady, source: practice }
        - { id: unsteady, rule: finish when not steady, source: practice }
        - { id: next, rule: advance, source: practice }
      """;

  private static Protocol with(String part, String by) {
    assertThat(FILE).contains(part);
    SourceFile changed = SourceFile.of("two-walks.yaml", FILE.replace(part, by));
    return Bundled.library().and(List.of(changed)).protocol("two-walks");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "speed: 3 km/h | speed: 3,5 km/h | write decimals with a point: 3.5 km/h",
        "lasts: 4 min, speed: 3 | lasts: 4,5 min, speed: 3 | write decimals with a point: 4.5 min",
        "[age, sex, mass] | [age sex, mass] | put a comma between them: age, sex",
        "[systolic, diastolic] | [systolic diastolic] | put a comma between them: systolic, diastolic",
        "speed: 3 km/h, grade | speed: 3 km/h grade | inside { } and [ ] a comma stands between the items",
        "finish when not steady | finish when not steady and/or rpe > 15 | write and where both are needed",
        "finish when not steady | finish when NOT steady | write not in small letters",
        "finish when not steady | finish when heart_rate > 120/min | /min is the unit of strokes and breaths",
        "'include:' | '  include:' | begin it as far right as the keys or the list that it belongs to",
        "- common-signals | - common-equations | which counts everywhere without being included",
        "- common-signals | - graded-walk-standard | only rule sets are included",
        "speed: 3 km/h, grade: 4 % | load: none | write rest: TIME in place of lasts for a pause",
        "speed: 3 km/h, grade: 4 % | load: 50 W | name what is set, such as speed: 5 km/h or power: 50 W",
        "speed: 3 km/h, | speed: 3 km/h, posture: sitting, | write seated",
      })
  void aSlipHasItsOwnHelp(String part, String by, String help) {
    assertThatThrownBy(() -> with(part, by))
        .isInstanceOf(FileRefused.class)
        .hasMessageContaining(help);
  }

  // One slip is one message: what YAML makes of its pieces is not told as well.
  @Test
  void aDecimalCommaIsSaidOnce() {
    assertThatThrownBy(() -> with("speed: 3 km/h", "speed: 3,5 km/h"))
        .isInstanceOfSatisfying(
            FileRefused.class, refused -> assertThat(refused.diagnostics()).hasSize(1));
  }

  @Test
  void noWordOfTheGrammarOfYamlIsShown() {
    assertThatThrownBy(() -> with("include:", "  include:"))
        .hasMessageContaining("this line does not belong to the lines above it")
        .hasMessageNotContaining("block");
  }

  @Test
  void aSetIncludesNothing() {
    SourceFile set =
        SourceFile.of(
            "ours.yaml",
            """
            format: 1
            kind: rules
            id: ours
            version: 1.0.0
            title: Ours
            include: [adult-stop-signs]
            """);
    assertThatThrownBy(() -> Bundled.library().and(List.of(set)))
        .hasMessageContaining("include is not a key")
        .hasMessageContaining("list both sets under include of the protocol");
  }

  private static List<String> mixed(String condition) {
    return Review.of(with(UNSTEADY, "finish when " + condition)).findings().stream()
        .filter(finding -> finding.check() == Check.MIXED_AND_OR)
        .map(ReviewFinding::about)
        .toList();
  }

  @Test
  void andBesideOrWithoutBracketsIsAFindingOfTheReview() {
    assertThat(mixed("not steady and rpe > 15 or rpe > 16")).containsExactly("unsteady");
    assertThat(mixed("rpe > 16 or not steady and rpe > 15")).containsExactly("unsteady");
    assertThat(mixed("(not steady and rpe > 15 or rpe > 16)")).containsExactly("unsteady");
    assertThat(mixed("(not steady and rpe > 15) or rpe > 16")).isEmpty();
    assertThat(mixed("not steady and (rpe > 15 or rpe > 16)")).isEmpty();
    assertThat(mixed("not steady or rpe > 15 or rpe > 16")).isEmpty();
    assertThat(Bundled.library().protocols())
        .allSatisfy(
            id ->
                assertThat(Bundled.library().protocol(id).notes().mixed().keySet())
                    .as(id)
                    .isEmpty());
  }
}
