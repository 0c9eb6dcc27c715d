package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.List;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A faulty text that draws a line through stages is refused with its place, like any other. */
class LinesRefusedTest {

  private static final String LINE = "vo2max: extrapolate(uptake, heart_rate, max_heart_rate)";

  private static Library edited(String before, String after) {
    List<SourceFile> files =
        Bundled.files().stream()
            .map(
                file ->
                    file.name().endsWith("graded-walk-standard.yaml")
                        ? SourceFile.of(file.name(), file.text().replace(before, after))
                        : file)
            .toList();
    return Library.of(files);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "vo2max: extrapolate(uptake, heart_rate, max_heart_rate) + 5 min | G205",
        "vo2max: extrapolate(uptake, heart_rate, max_heart_rate) * offsett | G201",
        "vo2max: extrapolate(heart_rate, uptake, uptake) | G305",
      })
  void aSlipBesideALine(String slip, String code) {
    FileRefused refused = catchThrowableOfType(FileRefused.class, () -> edited(LINE, slip));
    assertThat(refused.diagnostics())
        .anySatisfy(
            problem -> {
              assertThat(problem.code().name()).isEqualTo(code);
              assertThat(problem.toString()).contains("graded-walk-standard.yaml:");
            });
  }

  @Test
  void aLineInARule() {
    String rule = "  - rule: finish when steady and high_enough";
    String slip = "  - rule: finish when extrapolate(speed, heart_rate, 180 bpm) > 3 m/min";
    FileRefused refused = catchThrowableOfType(FileRefused.class, () -> edited(rule, slip));
    assertThat(refused.diagnostics()).extracting(problem -> problem.code().name()).contains("G405");
  }

  @Test
  void aModelThatNoFileDeclares() {
    FileRefused refused =
        catchThrowableOfType(
            FileRefused.class, () -> edited("model: straight_line", "model: straight_lime"));
    assertThat(refused.diagnostics().get(0).toString())
        .startsWith("error[G305] graded-walk-standard.yaml:")
        .contains("straight_lime is not a model that a file declares")
        .contains("did you mean straight_line?");
  }

  @Test
  void anAnchorOfAnotherKind() {
    FileRefused refused =
        catchThrowableOfType(
            FileRefused.class,
            () -> edited("resting.heart_rate, rest_spread", "resting.heart_rate, resting_uptake"));
    assertThat(refused.diagnostics()).extracting(problem -> problem.code().name()).contains("G204");
  }

  @Test
  void aLineThatOnlyAConditionAsksForIsDrawn() {
    String only = "only_when: not ever(handrail)\n    vo2max: extrapolate";
    String other =
        "only_when: extrapolate(heart_rate, uptake, 20 mL/kg/min) > 50 bpm\n    vo2max: extrapolate";
    assertThat(lines(edited(only, other))).isEqualTo(lines(Bundled.library()) + 1);
  }

  private static int lines(Library library) {
    return library.protocol("graded-walk-standard").wiring().lines().size();
  }
}
