package org.gradus.rule;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a person reads who has made a slip in a rule. */
class MessagesTest {

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "go on | G101 | expected an action, found go",
        "finish if x | G101 | expected when or the end of the rule, found if",
        "finish when | G101 | expected a value, found the end",
        "finish when heart_rate >= | G101 | expected a value, found the end",
        "finish when (heart_rate >= 5 bpm | G104 | ( has no partner",
        "finish when heart_rate) >= 5 bpm | G104 | ) has no partner",
        "finish when 1 < heart_rate < 3 | G103 | comparisons do not chain",
        "finish when heart_rate == 5 bpm | G101 | expected a value, found =",
        "finish when cleared & chest_pain | G102 | & has no meaning in a rule",
        "hold 1 min at most two times | G101 | expected a number, found two",
        "finish when hart_rate > 5 bpm | G201 | hart_rate is not known here",
        "finish when heart_rate > 5 bmp | G202 | there is no unit bmp",
        "finish when chang(heart_rate, 1 min) > 5 bpm | G203 | there is no function chang",
        "finish when heart_rate > 5 mmHg | G204 | a heart rate cannot be compared with a pressure",
        "finish when heart_rate + mass > 5 bpm | G205 | a heart rate and a mass cannot be added or subtracted",
        "finish when heart_rate * mass > 5 | G206 | this product is heart rate x mass, which is no kind",
        "finish when 5 / heart_rate > 5 | G206 | this product is a number / heart rate, which is no kind",
        "finish when heart_rate | G207 | expected a condition, found a heart rate",
        "finish when (cleared and chest_pain) > 5 | G208 | expected a value, found a condition",
        "finish when heart_rate in kg > 5 | G209 | a heart rate cannot be given in kg",
        "finish when ln(heart_rate) > 5 | G210 | ln needs a plain number here, found a heart rate",
        "finish when gait is runing | G211 | runing is not an option of gait",
        "finish when change(heart_rate) > 5 bpm | G212 | change takes 2 arguments, found 1",
        "finish when age_factor > 1 | G208 | expected a value, found the table age_factor",
        "finish when walking > 1 | G208 | expected a value, found the equation walking",
        "finish when load_for(mass, speed, 7 MET) > 1 mph | G213 | load_for needs the name of an equation here",
        "finish when load_for(walking, power, 7 MET) > 1 W | G211 | power is not an option of the loads of walking",
        "finish when load_for(walking, speed, 7 bpm) > 1 mph | G204 | an uptake per kilogram cannot be compared with a heart rate",
        "finish when load_for(bent, grade, 7 MET) > 1 | G305 | grade is not a load it can be solved for",
        "finish when lookup(mass, age) > 1 | G213 | lookup needs the name of a table here",
        "finish when lookup(age_factor, mass) > 1 | G305 | mass (a mass) is not an age",
        "finish when count(heart_rate) > 1 | G213 | count needs the name of a condition here",
        "finish when completed(walk_3) | G213 | completed needs the name of a stage here",
        "finish when change(mass, 1 min) > 5 kg | G213 | change needs the name of a signal here",
        "finish when change(word, 1 min) is slow | G208 | expected a value, found a choice of slow, fast",
        "finish when average(word, 1 min) is slow | G208 | expected a value, found a choice of slow, fast",
        "finish when highest(word) is slow | G208 | expected a value, found a choice of slow, fast",
        "finish when change(heart_rate, age) > 5 bpm | G214 | change needs a time above zero that is fixed when the file is read",
        "finish when (if cleared then 1 bpm else 1 kg) > 1 bpm | G216 | one branch is a heart rate, the other a mass",
        "finish when heart_rate > 99999999999999999999999 bpm | G106 | the number 99999999999999999999... is too large",
      })
  void namesTheSlip(String text, String code, String message) {
    assertThat(new Bench().refusal(text))
        .startsWith("error[" + code + "] test:1:")
        .contains(": " + message);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "finish when average(mass, 1 min) > 80 kg | signals are the readings of the measure list",
        "finish when average(hart_rate, 1 min) > 80 bpm | did you mean heart_rate?",
        "finish when ever(rpe) | declare it under signs",
        "finish when completed(walk_3) | did you mean walk_1?",
        "finish when lookup(mass, age) > 1 | declare it under tables",
        "hold at most 2 times | say how long: hold 1 min at most 2 times",
        "finish when rpe > 1,350 | a comma stands only between the arguments of a function; thousands have none",
        "finish when rpe > 13,5 | write decimals with a point: 13.5",
        "finish when cleared and/or chest_pain | write and where both are needed, or where one of them is enough",
        "finish when cleared AND chest_pain | write and in small letters",
        "finish when NOT cleared | write not in small letters",
        "FINISH when cleared | write finish in small letters",
        "finish when heart_rate > 120 /min | give both sides in units of one kind, such as bpm; /min is the unit of strokes and breaths",
        "finish when heart_rate > 120 beats per minute | a unit is one word: bpm, rpm, km/h, mL/kg/min",
        "finish when pause < 8:75 | a colon stands only in a time such as 2:30, with seconds from 00 to 59",
        "finish when lookup(age_factor, mass) > 1 | the table age_factor is read at an age",
      })
  void helpsWithTheSlip(String text, String help) {
    assertThat(new Bench().refusal(text)).endsWith("\n  help: " + help);
  }

  @Test
  void theRenderedDiagnosticShowsBothSides() {
    assertThat(new Bench().refusal("finish when heart_rate >= 135 mmHg"))
        .isEqualTo(
            """
            error[G204] test:1:27: a heart rate cannot be compared with a pressure
              1 | finish when heart_rate >= 135 mmHg
                |             ----------    ^^^^^^^^ pressure
                |             heart rate
              help: give both sides in units of one kind, such as bpm""");
  }

  @Test
  void everyErrorOfARuleIsReportedAtOnce() {
    assertThat(new Bench().refusal("finish when hart_rate > 5 bpm and mass > 3 bpm").lines())
        .filteredOn(line -> line.startsWith("error"))
        .hasSize(2);
  }

  @Test
  void caretsStandRightBehindWideCharactersAndTabs() {
    String refused = new Bench().refusal("finish when\tchest_pain and \uD83D\uDE00");
    assertThat(refused)
        .isEqualTo(
            """
            error[G102] test:1:28: \uD83D\uDE00 has no meaning in a rule
              1 | finish when    chest_pain and \uD83D\uDE00
                |                               ^^
              help: use the letters a to z, digits, and the signs of the language""");
  }

  @Test
  void anUnreadablyDeepRuleIsRefusedBeforeItIsParsed() {
    assertThat(new Bench().refusal("finish when " + "(".repeat(30) + "1 = 1" + ")".repeat(30)))
        .startsWith("error[G105]");
    assertThat(new Bench().refusal("finish when " + "not ".repeat(200) + "cleared"))
        .startsWith("error[G105]");
    assertThat(new Bench().refusal("finish when 1" + " + 1".repeat(600) + " = 1"))
        .startsWith("error[G105]");
  }
}
