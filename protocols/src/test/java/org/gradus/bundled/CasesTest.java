package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.gradus.cases.Case;
import org.gradus.cases.CaseReport;
import org.gradus.cases.Cases;
import org.gradus.cases.Coverage;
import org.gradus.cases.Failure;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** How cases are written, run and counted. */
class CasesTest {

  private static final Library LIBRARY = Bundled.library();
  private static final String TEXT = text();

  private static String text() {
    try (InputStream stream =
        Objects.requireNonNull(CasesTest.class.getResourceAsStream("walk-shapes.cases.yaml"))) {
      return new String(stream.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private static Cases cases(String text) {
    return Cases.read(SourceFile.of("walk.cases.yaml", text));
  }

  static Stream<Case> all() {
    return cases(TEXT).cases().stream();
  }

  @ParameterizedTest
  @MethodSource("all")
  void itGoesAsTheCaseSays(Case one) {
    assertThat(one.run(LIBRARY).failures()).isEmpty();
  }

  private static List<Failure> failures(String part, String by) {
    assertThat(TEXT).contains(part);
    return cases(TEXT.replace(part, by)).run(LIBRARY).failures();
  }

  @Test
  void whatComesOutOtherwiseIsSaid() {
    assertThat(failures("then: hold, until: 4:00", "then: hold, until: 5:00"))
        .containsExactly(
            new Failure("hold-advance-finish", "event 5 at 3:00", "until", "5:00", "4:00"));
    assertThat(failures("rule: not-yet-steady, firm: no", "rule: never-steady, firm: yes"))
        .extracting(Failure::what)
        .containsExactly("rule", "firm");
    assertThat(failures("vo2max: 38.16", "vo2max: 38.30"))
        .singleElement()
        .asString()
        .startsWith(
            "hold-advance-finish, the end: estimate single_stage should be 38.3 mL/kg/min within"
                + " 0.05 (24.69 x 102 / 66, an implementation check) but is 38.1");
    assertThat(failures("errors: [G204]", "errors: [G205]"))
        .extracting(Failure::found)
        .containsExactly("[G204]");
    assertThat(failures("then: hold, until: 4:00", "then: change"))
        .extracting(Failure::what)
        .containsExactly("then");
    assertThat(failures("refused: G602", "then: finish"))
        .extracting(Failure::what)
        .containsExactly("refused");
    assertThat(failures("shows: { grade: 11 % }", "shows: { grade: 12 % }")).hasSize(1);
    assertThat(failures("asks: [recent_event]", "asks: [pregnant]")).hasSize(1);
  }

  @Test
  void anUnknownNameIsRefusedWithASuggestion() {
    assertThat(failures("heart_rate: 60 bpm, id: slip", "hart_rate: 60 bpm, id: slip"))
        .first()
        .asString()
        .contains("did you mean heart_rate?");
  }

  @Test
  void whatIsNotOfferedIsNotFollowed() {
    assertThat(
            failures(
                "{ at: 3:02, override: advance, refused: G602 }", "{ at: 3:02, follow: finish }"))
        .singleElement()
        .satisfies(
            failure -> {
              assertThat(failure.what()).isEqualTo("follow");
              assertThat(failure.expected()).isEqualTo("finish");
            });
    assertThat(failures("{ at: 3:05, follow: yes }", "{ at: 3:05, follow: advance }")).isEmpty();
  }

  private static FileRefused refused(String part, String by) {
    assertThat(TEXT).contains(part);
    return catchThrowableOfType(FileRefused.class, () -> cases(TEXT.replace(part, by)));
  }

  @Test
  void errorsComeOfAChangeAndStandAlone() {
    assertThat(refused("expect:\n      phase: recovery", "expect:\n      errors: [G204]"))
        .hasMessageContaining("a change for these errors")
        .hasMessageContaining("errors alone");
    assertThat(refused("expect: { errors: [G204] }", "expect: { errors: [G204], phase: stage }"))
        .hasMessageContaining("a file that is refused is not played");
    assertThat(
            failures(
                "change: { stages.walk_2.grade: 11 % }",
                "change: { stages.walk_2.grade: 11 % }\n    expect: { errors: [] }"))
        .isEmpty();
  }

  @Test
  void slipsInAPersonAreFound() {
    assertThat(refused("sex: female", "sex: Female")).hasMessageContaining("did you mean female?");
    assertThat(refused("cleared: yes", "cleared: ye")).hasMessageContaining("did you mean yes?");
    assertThat(refused("mass: 82 kg", "mass: 82 cm")).hasMessageContaining("is not a mass");
    assertThat(failures("recent_event: no, then: ready", "recent_event: nein, then: ready"))
        .singleElement()
        .satisfies(failure -> assertThat(failure.found()).contains("nein"));
    assertThat(failures("like: ines, age: 64 years", "like: ines, agee: 64 years"))
        .anySatisfy(
            failure -> {
              assertThat(failure.what()).isEqualTo("agee");
              assertThat(failure.found()).contains("did you mean age?");
            });
    assertThat(failures("resting: { heart_rate", "resting: { hart_rate"))
        .anySatisfy(failure -> assertThat(failure.what()).isEqualTo("hart_rate"));
  }

  @Test
  void aLoadThatShouldNotBeThereIsSeen() {
    assertThat(failures("shows: { speed: 1.7 mph, grade: 0 % }", "shows: none"))
        .singleElement()
        .satisfies(failure -> assertThat(failure.what()).isEqualTo("shows"));
  }

  @Test
  void coverageSaysWhatNoCaseHasShown() {
    CaseReport report = cases(TEXT).run(LIBRARY);
    Coverage coverage = report.coverage();
    assertThat(coverage.decided()).contains("chest-pain", "rate-guided", "not-yet-steady", "next");
    assertThat(coverage.fired()).contains("enough");
    assertThat(coverage.reached()).containsExactlyInAnyOrder("walk_1", "walk_2");
    assertThat(coverage.neverReached())
        .containsExactly("walk_3", "walk_4", "walk_5", "walk_6", "walk_7");
    assertThat(coverage.neverFired()).contains("never-steady", "effort").doesNotContain("enough");
  }

  @Test
  void aFileOfCasesIsReadStrictly() {
    FileRefused refused =
        catchThrowableOfType(
            FileRefused.class,
            () ->
                cases(
                    TEXT.replace("person: otto", "person: oto")
                        .replace("then: hold, until: 4:00", "then: wait, until: 4")
                        .replace("about: A change of", "abuot: A change of")));
    assertThat(refused.diagnostics())
        .extracting(problem -> problem.code().name())
        .containsExactly("G305", "G305", "G302", "G309");
  }
}
