package org.gradus.library;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.library.Meadow.edit;

import java.util.List;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Diagnostic;
import org.junit.jupiter.api.Test;

/** What a stage may set is proved to be possible when the file is loaded. Worked by hand. */
class LoadLimitsTest {

  private static final String LIMITS =
      """
      loads:
        speed: { range: 0 km/h to 25 km/h, source: practice }
        grade: { range: -20 % to 40 %, source: practice }
        brake_force: { range: 0 kp to 6 kp, source: practice }
      scales:
      """;
  private static final String WATCH = edit(Meadow.WATCH, "scales:\n", LIMITS);
  private static final String FLAT = "lasts: 3 min, speed: 4 km/h";
  private static final String HILL_1 = "speed: 5 km/h, grade: 5 %";
  private static final String CHECK =
      "check digits, unit and steps, or the range of speed under loads";

  private static List<String> said(List<Diagnostic> problems) {
    assertThat(problems).allMatch(problem -> problem.code() == Code.G412);
    return problems.stream().map(p -> p.message() + " | " + p.help()).toList();
  }

  /** What is said of the walk with this speed in its second stage. */
  private static List<String> speed(String value, String... settings) {
    String walk = edit(Meadow.WALK, HILL_1, "speed: \"" + value + "\", grade: 5 %");
    for (String setting : settings) {
      walk = edit(walk, "settings:\n", "settings:\n  " + setting + "\n");
    }
    return said(Meadow.problems(walk, WATCH, Meadow.EQUATIONS));
  }

  private static String hill(String values, String remedy) {
    return "the speed of hill_1 could be " + values + "; possible is 0 km/h to 25 km/h | " + remedy;
  }

  @Test
  void aFigureThatIsASlipOfTheUnitIsRefusedWhereItStands() {
    List<Diagnostic> problems =
        Meadow.problems(
            edit(Meadow.WALK, FLAT, "lasts: 3 min, speed: 60 km/h"), WATCH, Meadow.EQUATIONS);
    assertThat(said(problems))
        .containsExactly(
            "the speed of flat could be 60 km/h; possible is 0 km/h to 25 km/h | " + CHECK);
    assertThat(problems.get(0).where().text()).isEqualTo("60 km/h");
    assertThat(Meadow.problems(Meadow.WALK, WATCH, Meadow.EQUATIONS)).isEmpty();
  }

  @Test
  void whereNothingIsSaidOfALoadItMayBeAnything() {
    assertThat(Meadow.wrong(FLAT, "lasts: 3 min, speed: 60 km/h")).isEmpty();
  }

  // What was set before lies between 0 and 25 km/h, whoever set it.
  @Test
  void aLoadThatGrowsFromTheOneBeforeIsBoundedOrRefused() {
    assertThat(speed("previous_stage.speed")).isEmpty();
    assertThat(speed("previous_stage.speed + 1 km/h"))
        .containsExactly(hill("1 km/h to 26 km/h", "bound it: lesser(..., 25 km/h)"));
    assertThat(speed("lesser(previous_stage.speed + 1 km/h, 25 km/h)")).isEmpty();
    assertThat(speed("previous_stage.speed - 5 km/h"))
        .containsExactly(hill("-5 km/h to 20 km/h", "bound it: greater(..., 0 km/h)"));
    assertThat(speed("2 * previous_stage.speed - 5 km/h"))
        .containsExactly(
            hill("-5 km/h to 45 km/h", "bound it: greater(lesser(..., 25 km/h), 0 km/h)"));
  }

  @Test
  void aSettingCountsWithEveryValueThatTheFileAllows() {
    assertThat(speed("pace", "pace: { value: 5 km/h, range: 4 km/h to 30 km/h, source: book }"))
        .containsExactly(hill("4 km/h to 30 km/h", allow("pace", "lesser(..., 25 km/h)")));
    assertThat(speed("pace", "pace: { value: 5 km/h, range: 4 km/h to 25 km/h, source: book }"))
        .isEmpty();
    assertThat(
            speed(
                "2 * pace",
                "pace: { value: 5 km/h, options: [{ value: 5 km/h }, { value: 13 km/h }] }"))
        .containsExactly(hill("10 km/h to 26 km/h", "bound it: lesser(..., 25 km/h)"));
    assertThat(speed("if mood is brisk then 40 km/h else 5 km/h"))
        .containsExactly(hill("5 km/h to 40 km/h", "bound it: lesser(..., 25 km/h)"));
  }

  // The time an average is taken over has to be fixed when the file is read.
  @Test
  void aSettingThatHasToBeFixedCountsAsItIs() {
    String window = "window: { value: 1 min, range: 1 min to 2 min, source: book }";
    assertThat(speed("if known(average(heart_rate, window)) then 26 km/h else 5 km/h", window))
        .containsExactly(hill("5 km/h to 26 km/h", "bound it: lesser(..., 25 km/h)"));
    assertThat(speed("if known(average(heart_rate, window)) then 6 km/h else 5 km/h", window))
        .isEmpty();
  }

  // 130 years / 4: against a defer a tester may begin all the same.
  @Test
  void whoeverThePersonIs() {
    assertThat(speed("((age in years) / 4) as km/h"))
        .containsExactly(hill("0 km/h to 32.5 km/h", "bound it: lesser(..., 25 km/h)"));
    assertThat(speed("if known(measured_max_heart_rate) then 60 km/h else 5 km/h"))
        .containsExactly(hill("5 km/h to 60 km/h", "bound it: lesser(..., 25 km/h)"));
  }

  @Test
  void whateverIsAnswered() {
    String asked =
        edit(
            edit(Meadow.WALK, HILL_1, "speed: wish, grade: 5 %"),
            "define:\n",
            "inputs:\n  wish: { kind: speed, ask: How fast?, range: 1 km/h to 30 km/h }\ndefine:\n");
    assertThat(said(Meadow.problems(asked, WATCH, Meadow.EQUATIONS)))
        .containsExactly(hill("1 km/h to 30 km/h", allow("wish", "lesser(..., 25 km/h)")));
    String anything = edit(asked, ", range: 1 km/h to 30 km/h", "");
    assertThat(said(Meadow.problems(anything, WATCH, Meadow.EQUATIONS)))
        .containsExactly(hill("anything", allow("wish", "greater(lesser(..., 25 km/h), 0 km/h)")));
    assertThat(Meadow.problems(edit(asked, "to 30 km/h", "to 25 km/h"), WATCH, Meadow.EQUATIONS))
        .isEmpty();
  }

  // Who answers 30 km/h is better asked again than set to 25 km/h.
  private static String allow(String name, String bound) {
    return "allow " + name + " only 0 km/h to 25 km/h, or bound it: " + bound;
  }

  // The second stage is the first or the second to be walked.
  @Test
  void inEveryPlaceThatAStageCanHave() {
    assertThat(speed("stage.number * 13 km/h"))
        .containsExactly(hill("13 km/h to 26 km/h", "bound it: lesser(..., 25 km/h)"));
    assertThat(speed("stage.number * 12 km/h")).isEmpty();
  }

  @Test
  void bothEndsOfARampAreLookedAt() {
    for (String ends : List.of("from: 0 %, to: 50 %", "from: 50 %, to: 0 %")) {
      String ramp = "speed: 5 km/h, grade: { " + ends + ", step: 1 %, every: 1 min }";
      assertThat(said(Meadow.problems(edit(Meadow.WALK, HILL_1, ramp), WATCH, Meadow.EQUATIONS)))
          .containsExactly(
              "the grade of hill_1 could be 50 %; possible is -20 % to 40 % | "
                  + CHECK.replace("speed", "grade"));
    }
  }

  // 8 + 34 x 0.5 = 25 is possible, 25.5 is not; the stages after it need not be named.
  @Test
  void aSeriesIsRefusedAtTheFirstStageThatLeadsTooFar() {
    String series =
        "series: { id: level, count: 40, lasts: 3 min,"
            + " speed: { from: 8 km/h, step: 0.5 km/h }, grade: 0 % }";
    String walk =
        edit(Meadow.WALK, "{ id: hill_3, lasts: 3 min, speed: 6 km/h, grade: 12 % }", series);
    assertThat(said(Meadow.problems(walk, WATCH, Meadow.EQUATIONS)))
        .containsExactly(
            "the speed of level_36 could be 25.5 km/h; possible is 0 km/h to 25 km/h | " + CHECK);
    assertThat(Meadow.problems(edit(walk, "count: 40", "count: 35"), WATCH, Meadow.EQUATIONS))
        .isEmpty();
  }

  // 5 + 21 x 0.5 = 15.5, 5 + 21 x 1 = 26; what is written under from alone leads nowhere.
  @Test
  void aSeriesThatIsWorkedOutIsPutRightAsASeries() {
    String series =
        "series: { id: level, count: 30, lasts: 3 min,"
            + " speed: { from: 5 km/h, step: rise }, grade: 0 % }";
    String walk =
        edit(
            edit(Meadow.WALK, "{ id: hill_3, lasts: 3 min, speed: 6 km/h, grade: 12 % }", series),
            "settings:\n",
            "settings:\n  rise: { value: 0.5 km/h, range: 0.5 km/h to 1 km/h, source: book }\n");
    assertThat(said(Meadow.problems(walk, WATCH, Meadow.EQUATIONS)))
        .containsExactly(
            "the speed of level_22 could be 15.5 km/h to 26 km/h; possible is 0 km/h to 25 km/h | "
                + "check from, step and count of the series, or the range of speed under loads");
  }

  // 5 - 10 x 0.5 = 0 is possible, in whatever way it is worked out.
  @Test
  void zeroIsPossibleWhereARangeBeginsWithIt() {
    assertThat(speed("5 km/h - 5 km/h")).isEmpty();
    assertThat(speed("3 * 0.1 km/h - 0.3 km/h")).isEmpty();
    assertThat(speed("5 km/h - 5.001 km/h")).hasSize(1);
    String series =
        "series: { id: level, count: 11, lasts: 3 min,"
            + " speed: { from: 5 km/h, step: -0.5 km/h }, grade: 0 % }";
    String walk =
        edit(Meadow.WALK, "{ id: hill_3, lasts: 3 min, speed: 6 km/h, grade: 12 % }", series);
    assertThat(said(Meadow.problems(walk, WATCH, Meadow.EQUATIONS))).isEmpty();
    assertThat(said(Meadow.problems(edit(walk, "count: 11", "count: 12"), WATCH, Meadow.EQUATIONS)))
        .containsExactly(
            "the speed of level_12 could be -0.5 km/h; possible is 0 km/h to 25 km/h | "
                + "check from, step and count of the series, or the range of speed under loads");
  }

  @Test
  void aFigureWithASignIsAFigure() {
    assertThat(speed("-5 km/h")).containsExactly(hill("-5 km/h", CHECK));
  }

  @Test
  void recoveryIsLookedAtToo() {
    String watch = edit(WATCH, "speed: 2 km/h", "speed: 30 km/h");
    List<Diagnostic> problems = Meadow.problems(Meadow.WALK, watch, Meadow.EQUATIONS);
    assertThat(said(problems))
        .containsExactly(
            "the speed of stroll could be 30 km/h; possible is 0 km/h to 25 km/h | " + CHECK);
    assertThat(problems.get(0).where().file().name()).isEqualTo("watch.yaml");
  }

  // 300 W at 50 turns of 6 m a minute are 300 x 60 / 300 = 60 N or 6.12 kp; 290 W are 5.91 kp.
  @Test
  void theForceThatAPowerAsksForIsLookedAt() {
    String cycle = edit(Meadow.WALK, "cost: s", "brake: { travel: 6 m, source: book }\ncost: s");
    String heavy = edit(cycle, FLAT, FLAT + ", power: 300 W, pedal_rate: 50 rpm");
    assertThat(said(Meadow.problems(heavy, WATCH, Meadow.EQUATIONS)))
        .containsExactly(
            "the brake force of flat could be 6.12 kp; possible is 0 kp to 6 kp | "
                + CHECK.replace("speed", "brake_force"));
    assertThat(Meadow.problems(edit(heavy, "300 W", "290 W"), WATCH, Meadow.EQUATIONS)).isEmpty();
    String worked = edit(heavy, "300 W", "\"100 W * stage.number + 250 W\"");
    assertThat(said(Meadow.problems(worked, WATCH, Meadow.EQUATIONS)))
        .containsExactly(
            "the brake force of flat could be 7.14 kp; possible is 0 kp to 6 kp | "
                + "bound the power with greater and lesser, or prescribe another pedal_rate");
  }

  @Test
  void theProtocolsOwnRangeReplacesThatOfASet() {
    String own =
        edit(
            edit(Meadow.WALK, FLAT, "lasts: 3 min, speed: 60 km/h"),
            "define:\n",
            "loads:\n  speed: { range: 0 km/h to 70 km/h, source: book }\ndefine:\n");
    assertThat(Meadow.problems(own, WATCH, Meadow.EQUATIONS)).isEmpty();
  }

  @Test
  void rangesAreReadLikeOthers() {
    assertThat(range("sped: { range: 0 km/h to 25 km/h, source: practice }"))
        .containsExactly("G309 \"sped\"");
    assertThat(range("speed: { range: 0 to 25 km/h, source: practice }"))
        .containsExactly("G305 \"0 to 25 km/h\"");
    assertThat(range("speed: { range: -5 km/h to 25 km/h, source: practice }"))
        .containsExactly("G305 \"-5 km/h to 25 km/h\"");
    assertThat(range("speed: { range: 0 W to 25 W, source: practice }"))
        .containsExactly("G305 \"0 W to 25 W\"");
    assertThat(range("grade: { range: 0 to 0.4, source: practice }"))
        .containsExactly("G305 \"0 to 0.4\"");
    assertThat(range("speed: { source: practice }")).containsExactly("G303 \"source\"");
    assertThat(range("speed: 25 km/h")).containsExactly("G304 \"25 km/h\"");
  }

  private static List<String> range(String line) {
    String watch = edit(Meadow.WATCH, "scales:\n", "loads:\n  " + line + "\nscales:\n");
    return Meadow.found(Meadow.WALK, watch, Meadow.EQUATIONS);
  }
}
