package org.gradus.diagnostic;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.AlphaChars;
import net.jqwik.api.constraints.StringLength;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SuggestionTest {

  private static final List<String> KNOWN =
      List.of("heart_rate", "systolic", "bpm", "mmHg", "W", "s", "m", "kg", "h");

  @ParameterizedTest
  @CsvSource({
    "hart_rate, heart_rate",
    "haert_rate, heart_rate",
    "heartrate, heart_rate",
    "HEART_RATE, heart_rate",
    "sistolic, systolic",
    "bmp, bpm",
    "BPM, bpm",
    "mmhg, mmHg",
    "w, W",
    "Kg, kg",
  })
  void aSlipIsRecognised(String word, String meant) {
    assertThat(Suggestion.nearest(word, KNOWN)).contains(meant);
  }

  @ParameterizedTest
  @CsvSource({"pulse", "x", "g", "heart", "rate_of_heart"})
  void anotherWordIsNoSlip(String word) {
    assertThat(Suggestion.nearest(word, KNOWN)).isEmpty();
  }

  @Test
  void theNearestIsTakenAndTheFirstOfTheAlphabetAmongEquals() {
    assertThat(Suggestion.nearest("walk_2", List.of("walk_3", "walk_1", "walk_12")))
        .contains("walk_1");
  }

  @Test
  void helpFallsBackToWhatElseIsSaid() {
    assertThat(Suggestion.help("bmp", KNOWN, "see the page")).isEqualTo("did you mean bpm?");
    assertThat(Suggestion.help("pulse", KNOWN, "see the page")).isEqualTo("see the page");
    assertThat(Suggestion.nearest("", KNOWN)).isEmpty();
    assertThat(Suggestion.nearest("x".repeat(1_000_000), KNOWN)).isEmpty();
  }

  @Property(tries = 1000)
  void oneWrongLetterInALongWordIsAlwaysRecognised(
      @ForAll @AlphaChars @StringLength(min = 4, max = 20) String word, @ForAll int place) {
    StringBuilder wrong = new StringBuilder(word);
    wrong.setCharAt(Math.floorMod(place, word.length()), '_');
    assertThat(Suggestion.nearest(wrong.toString(), List.of(word))).contains(word);
  }
}
