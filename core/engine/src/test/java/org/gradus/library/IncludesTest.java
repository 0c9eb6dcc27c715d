package org.gradus.library;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.protocol.ProtocolRule;
import org.junit.jupiter.api.Test;

/** Rule sets joined into one protocol. */
class IncludesTest {

  private static final String SECOND =
      """
      format: 1
      kind: rules
      id: second
      version: 1.0.0
      title: Another set
      settings:
        most_effort: { value: 6 }
      any_time:
        - finish when effort > 9
      """;

  private static List<String> found(String walk, String second) {
    return diagnostics(walk, second).stream().map(d -> d.where() + " " + d.message()).toList();
  }

  private static List<Diagnostic> diagnostics(String walk, String second) {
    try {
      Library.of(
          List.of(
              SourceFile.of("walk.yaml", walk),
              SourceFile.of("second.yaml", second),
              SourceFile.of("watch.yaml", Meadow.WATCH),
              SourceFile.of("equations.yaml", Meadow.EQUATIONS)));
      return List.of();
    } catch (FileRefused refused) {
      return refused.diagnostics();
    }
  }

  @Test
  void twoSetsThatDefineTheSameClashWhereTheSecondIsIncluded() {
    String walk = Meadow.edit(Meadow.WALK, "[watch]", "[watch, second]");
    assertThat(found(walk, SECOND))
        .containsExactly("walk.yaml:9:18 most_effort is defined by watch and by second");
  }

  @Test
  void theProtocolSettlesTheClash() {
    String walk = Meadow.edit(Meadow.WALK, "[watch]", "[watch, second]");
    walk = Meadow.edit(walk, "settings:\n", "settings:\n  most_effort: { value: 8 }\n");
    assertThat(found(walk, SECOND)).isEmpty();
  }

  @Test
  void rulesWithoutAnIdDoNotClashBetweenSets() {
    String walk = Meadow.edit(Meadow.WALK, "[watch]", "[watch, second]");
    String bare = Meadow.edit(SECOND, "settings:\n  most_effort: { value: 6 }\n", "");
    String own = Meadow.edit(walk, "stage_end:\n", "any_time: [caution when dizzy]\nstage_end:\n");
    assertThat(found(own, bare)).isEmpty();
  }

  @Test
  void nothingButRulesCanBeLeftOut() {
    String rules = SECOND.substring(0, SECOND.indexOf("settings:"));
    String slow = rules + "loads: { speed: { range: 0 km/h to 12 km/h } }\n";
    String walk = Meadow.edit(Meadow.WALK, "[watch]", "[watch, { use: second, without: [speed] }]");
    assertThat(found(walk, slow))
        .containsExactly("walk.yaml:9:43 there is no rule in second called speed");
    assertThat(diagnostics(walk, slow).get(0).help())
        .isEqualTo("it has no rules, and nothing but rules can be left out");
    assertThat(found(Meadow.edit(walk, "{ use: second, without: [speed] }", "second"), slow))
        .isEmpty();
  }

  @Test
  void aRuleThatIsLeftOutIsGone() {
    String walk = Meadow.edit(Meadow.WALK, "[watch]", "[{ use: watch, without: [hard] }]");
    assertThat(Meadow.walk(walk).rules().anyTime())
        .extracting(ProtocolRule::id)
        .containsExactly("dizzy");
  }

  @Test
  void aRuleOfRecoveryCanBeLeftOutToo() {
    String walk = Meadow.edit(Meadow.WALK, "[watch]", "[{ use: watch, without: [calm] }]");
    assertThat(Meadow.walk(walk).rules().recovery()).isEmpty();
  }

  @Test
  void includedRulesComeFirst() {
    String walk =
        Meadow.edit(
            Meadow.WALK, "stage_end:\n", "any_time: [caution when pain >= 2]\nstage_end:\n");
    assertThat(Meadow.walk(walk).rules().anyTime())
        .extracting(ProtocolRule::id)
        .containsExactly("dizzy", "hard", "any_time-1");
  }
}
