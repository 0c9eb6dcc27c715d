package org.gradus.diagnostic;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class ProblemsTest {

  private final Problems problems = new Problems();
  private final SourceFile file = SourceFile.of("b.yaml", "one two three");

  @Test
  void areShownByFileAndPlace() {
    problems.add(new Span(file, 8, 13), Code.G401);
    problems.add(new Span(file, 4, 7), Code.G402, "x");
    problems.add(Span.all("a.yaml", "text"), Code.G401);
    assertThat(problems.sorted())
        .extracting(problem -> problem.where().toString())
        .containsExactly("a.yaml:1:1", "b.yaml:1:5", "b.yaml:1:9");
  }

  @Test
  void theSameProblemIsShownOnceButCountsEachTime() {
    problems.add(new Span(file, 4, 7), Code.G401);
    problems.add(new Span(file, 4, 7), Code.G401);
    assertThat(problems.sorted()).hasSize(1);
    assertThat(problems.count()).isEqualTo(2);
  }

  @Test
  void aFloodIsCutOffButStillCounted() {
    for (int i = 0; i < 500; i++) {
      problems.add(new Span(file, 4, 7), Code.G201, "name" + i, "");
    }
    assertThat(problems.sorted()).hasSize(200);
    assertThat(problems.count()).isEqualTo(500);
  }

  @Test
  void endTheReadingOnlyWhenThereAreAny() {
    assertThatCode(problems::throwIfAny).doesNotThrowAnyException();
    problems.add(new Span(file, 4, 7), Code.G402, "stop");
    assertThatThrownBy(problems::throwIfAny)
        .isInstanceOf(FileRefused.class)
        .hasMessageContaining("error[G402] b.yaml:1:5: this rule is never reached")
        .extracting(refused -> ((FileRefused) refused).diagnostics())
        .isEqualTo(problems.sorted());
  }

  @ParameterizedTest
  @EnumSource
  void everyCodeFillsItsWords(Code code) {
    List<String> arguments = List.of("first", "second", "third", "fourth");
    assertThat(code.message(arguments)).isNotEmpty().doesNotContain("{").doesNotEndWith(".");
    assertThat(code.help(arguments)).isNotEmpty().doesNotContain("{");
    assertThat(code.message(List.of())).doesNotContain("{");
    assertThat(code.name()).matches(Pattern.compile("G[1-6]\\d\\d"));
  }

  @Test
  void whatIsNotShownIsNotSearchedFor() {
    Problems problems = new Problems();
    Span where = Span.all("test", "x".repeat(300));
    for (int i = 0; i < 200; i++) {
      assertThat(problems.isFull()).isFalse();
      assertThat(problems.help("hart", List.of("heart"), "none")).isEqualTo("did you mean heart?");
      problems.add(new Span(where.file(), i, i + 1), Code.G103);
    }
    assertThat(problems.isFull()).isTrue();
    assertThat(problems.help("hart", List.of("heart"), "none")).isEqualTo("none");
  }
}
