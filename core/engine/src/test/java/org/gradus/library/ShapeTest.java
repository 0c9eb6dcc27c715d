package org.gradus.library;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.library.Meadow.wrong;
import static org.gradus.library.Meadow.wrongInWatch;

import java.util.List;
import org.gradus.diagnostic.Diagnostic;
import org.junit.jupiter.api.Test;

/** The shape of files: keys, values, and what YAML does to texts of rules. */
class ShapeTest {

  private static final String NEVER = "{ id: never, rule: finish when not steady, source: book }";

  private static String help(String part, String by) {
    List<Diagnostic> problems =
        Meadow.problems(Meadow.edit(Meadow.WALK, part, by), Meadow.WATCH, Meadow.EQUATIONS);
    assertThat(problems).hasSize(1);
    return problems.get(0).code() + ": " + problems.get(0).help();
  }

  @Test
  void anUnknownKeyComesWithASuggestion() {
    assertThat(help("id: flat, lasts: 3 min, speed", "id: flat, lasts: 3 min, incline: 1 %, speed"))
        .startsWith("G302: the keys are at_most, distance, falls, grade, id, lasts, load");
    assertThat(help("mood: {", "mood: { vlaue: brisk,")).isEqualTo("G302: did you mean value?");
  }

  @Test
  void keysAndIdsStandOnce() {
    assertThat(wrong("purpose: submaximal", "purpose: submaximal\npurpose: maximal"))
        .containsExactly("G306 \"purpose\"");
    assertThat(wrong("id: hill_3", "id: hill_2")).containsExactly("G306 \"hill_2\"");
    assertThat(wrong("id: never", "id: wait")).containsExactly("G306 \"wait\"");
    assertThat(wrong("mood: {", "steady: {")).containsExactly("G305 \"steady\"");
    assertThat(wrong("mood: {", "age: {")).containsExactly("G305 \"age\"");
    assertThat(wrong("{ value: calm }, {", "{ value: calm }, { value: calm }, {"))
        .containsExactly("G306 \"calm\"");
  }

  @Test
  void referencesTagsAndSecondDocumentsAreRefused() {
    assertThat(help("title: A walk", "title: &a A walk")).startsWith("G307: leave it out");
    assertThat(help("title: A walk that gets steeper", "title: *a"))
        .startsWith("G307: write the value out");
    assertThat(help("rule: finish when not steady", "rule: !finish when not steady"))
        .startsWith("G307: text that begins with ! needs quotes");
    assertThat(Meadow.problems(Meadow.WALK + "---\na: b\n", Meadow.WATCH, Meadow.EQUATIONS))
        .singleElement()
        .asString()
        .contains("G307", "a second document");
    String[] split = Meadow.WALK.split("sources:", 2);
    String two = split[0] + "---\nsources:" + split[1];
    assertThat(Meadow.found(two, Meadow.WATCH, Meadow.EQUATIONS)).containsExactly("G307 \"---\"");
  }

  @Test
  void aCommaThatCutsATextHasItsOwnHelp() {
    String cut = "{ id: never, rule: finish when not steady or lesser(age, 9 years) = age }";
    assertThat(help(NEVER, cut)).startsWith("G311: put the whole text in quotes");
    assertThat(wrong("- " + NEVER, "- [finish when lesser(age, 9 years) = age]"))
        .contains("G311 \"9 years) = age\"");
  }

  @Test
  void aKeyWithoutItsColonHasItsOwnHelp() {
    assertThat(help("{ id: never, rule: finish", "{ id: never, rule:finish"))
        .isEqualTo("G304: put a blank behind the colon");
    assertThat(help("{ id: never, rule: finish", "{ id: never, rule finish"))
        .isEqualTo("G304: write key: value");
  }

  @Test
  void aColonInATextHasItsOwnHelp() {
    assertThat(help("- " + NEVER, "- finish when not steady: stop"))
        .startsWith("G311: write rule: finish");
    assertThat(help("- " + NEVER, "- finish:")).startsWith("G311: write rule: finish");
    assertThat(help("- " + NEVER, "- change grade by 1 % at most 3 times when a: b"))
        .startsWith("G311: write rule: change");
    assertThat(help("- " + NEVER, "- rule: finish when a: b"))
        .startsWith("G301: text with \": \" in it needs quotes");
  }

  @Test
  void aCommentThatCutsATextHasItsOwnHelp() {
    assertThat(help("- " + NEVER, "- finish when # not steady")).contains("begin a comment");
  }

  @Test
  void aTabThatIndentsHasItsOwnHelp() {
    assertThat(help("  - " + NEVER, "\t- " + NEVER))
        .isEqualTo("G301: indent with blanks, not with tabs");
  }

  @Test
  void textsThatYamlKeepsForItselfNeedQuotes() {
    assertThat(help("- " + NEVER, "- @finish"))
        .isEqualTo("G301: text that begins with @ needs quotes");
    for (String begins : List.of(">= 5 bpm", "> 5 bpm", "| 5 bpm")) {
      assertThat(help("abs(change(heart_rate, 1 min)) <= steady_band", begins))
          .isEqualTo("G301: text that begins with > or | needs quotes");
    }
  }

  @Test
  void whatEveryProtocolNeedsIsAskedForOnce() {
    String bare = Meadow.WALK.substring(0, Meadow.WALK.indexOf("ergometer:"));
    assertThat(
            Meadow.problems(bare, Meadow.WATCH, Meadow.EQUATIONS).stream()
                .map(Diagnostic::message)
                .toList())
        .containsExactly(
            "the file has no ergometer",
            "the file has no purpose",
            "the protocol has no for",
            "the protocol has no stages");
  }

  @Test
  void figuresAreOfTheKindOfTheirSetting() {
    assertThat(wrong("range: 4 bpm to 8 bpm", "range: 4 mmHg to 8 mmHg"))
        .containsExactly("G305 \"4 mmHg to 8 mmHg\"");
    assertThat(wrong("range: 4 bpm to 8 bpm", "range: 8 bpm to 4 bpm"))
        .containsExactly("G305 \"8 bpm to 4 bpm\"");
    assertThat(wrong("range: 4 bpm to 8 bpm", "range: 6 bpm to 8 bpm"))
        .containsExactly("G305 \"5 bpm\"");
    assertThat(wrong("value: 140 bpm", "value: 140 mmHg")).containsExactly("G305 \"140 mmHg\"");
    assertThat(wrong("value: 140 bpm", "value: 130 bpm")).containsExactly("G306 \"130 bpm\"");
  }

  @Test
  void aGradeHasItsPercentSign() {
    assertThat(wrong("grade: 5 %", "grade: 5")).containsExactly("G305 \"5\"");
    assertThat(wrong("grade: 5 %", "grade: if sex is male then 0.05 else 4 %"))
        .containsExactly("G305 \"if sex is male then 0.05 else 4 %\"");
  }

  @Test
  void whatAProtocolNamesExists() {
    assertThat(wrong("{ read: effort", "{ read: efort")).contains("G309 \"efort\"");
    assertThat(wrong("scale: effort_0_10", "scale: effort_7_21"))
        .containsExactly("G309 \"effort_7_21\"");
    assertThat(wrong("covers: method, source: book", "covers: method, source: bok"))
        .containsExactly("G309 \"bok\"");
    assertThat(wrong("- simple\n", "- simpel\n")).containsExactly("G309 \"simpel\"");
    assertThat(wrong("cost: strolling", "cost: walking")).containsExactly("G309 \"walking\"");
    assertThat(wrong("from: steady stages, at least 2", "from: stage hill_9"))
        .containsExactly("G309 \"hill_9\"");
    assertThat(wrong("[watch]", "[{ use: watch, without: [dizi] }]"))
        .containsExactly("G309 \"dizi\"");
    assertThat(wrongInWatch("read: heart_rate, as: resting", "read: hart_rate, as: resting"))
        .contains("G309 \"hart_rate\"");
  }

  @Test
  void aKeyThatChangesNothingIsRefused() {
    assertThat(wrong("id: never,", "id: never, then: rest,")).containsExactly("G302 \"then\"");
    assertThat(wrong("id: never,", "id: never, confirm: 1 min,"))
        .containsExactly("G302 \"confirm\"");
    assertThat(wrong("id: never,", "id: never, during: stages,"))
        .containsExactly("G302 \"during\"");
    assertThat(wrong("id: never,", "id: never, alarming: no,"))
        .containsExactly("G302 \"alarming\"");
    assertThat(wrong("before_end: 15 s }", "before_end: 15 s, from: 1 min }"))
        .containsExactly("G302 \"from\"");
    assertThat(wrong("id: flat, lasts: 3 min,", "id: flat, lasts: 3 min, load: none,"))
        .containsExactly("G302 \"load\"");
    assertThat(wrongInWatch("id: sit, lasts: until_end", "id: sit, warm_up: yes, lasts: until_end"))
        .containsExactly("G302 \"warm_up\"");
  }

  @Test
  void aChoiceAfterOneThatAlwaysAppliesIsNeverReached() {
    assertThat(wrong("  - simple\n", "  - simple\n  - none\n")).containsExactly("G402 \"none\"");
  }

  @Test
  void timesAreThoseOfATest() {
    assertThat(wrong("hill_1, lasts: 3 min", "hill_1, lasts: 300 h"))
        .containsExactly("G305 \"300 h\"");
    assertThat(wrong("each: 1 min", "each: 0.001 s")).containsExactly("G305 \"0.001 s\"");
    assertThat(wrong("at most 2 times", "at most 2000 times"))
        .containsExactly("G305 \"hold 1 min at most 2000 times\"");
  }

  @Test
  void limitsAreKeptWithoutRunningOutOfStack() {
    assertThat(wrong("title: A walk that gets steeper", "title: " + "[".repeat(50_000)))
        .containsExactly("G308 \"[\"");
    assertThat(wrong("title: A walk", "title: " + "a".repeat(1_000_000))).hasSize(1);
    assertThat(wrong("include: [watch]", "include: [" + "watch, ".repeat(100_000) + "]"))
        .singleElement()
        .asString()
        .startsWith("G308");
  }

  @Test
  void charactersThatNoTextHasAreRefusedWhereTheyStand() {
    List<Diagnostic> problems =
        Meadow.problems(
            Meadow.edit(Meadow.WALK, "title: A walk", "title: A \u0000walk"),
            Meadow.WATCH,
            Meadow.EQUATIONS);
    assertThat(problems).hasSize(1);
    assertThat(problems.get(0).where()).hasToString("walk.yaml:5:10");
    assertThat(wrong("title: A walk", "title: A \uD83Cwalk")).hasSize(1);
  }
}
