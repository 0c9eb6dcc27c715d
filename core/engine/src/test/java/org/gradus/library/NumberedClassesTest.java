package org.gradus.library;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import java.util.List;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.knowledge.NormTable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Classes of a table of norms have names, or numbers from 1 on. */
class NumberedClassesTest {

  private static List<NormTable> tables(String first, String second) {
    String text =
        """
        format: 1
        kind: norms
        id: meadow-norms
        version: 1.0.0
        title: Classes of a walk
        sources:
          book: An invented handbook.
        tables:
          - id: counts
            of: recovery_count
            in: bpm
            when: sex is male
            better: lower
            edition: "1"
            source: book
            ages: [20-29]
            classes:
              %s: [60-79]
              %s: [80-99]
        """
            .formatted(first, second);
    return Library.of(List.of(SourceFile.of("norms.yaml", text))).norms();
  }

  private static List<String> names(String first, String second) {
    NormTable.Classes classes = (NormTable.Classes) tables(first, second).get(0).rows();
    assertThat(classes.numbered()).isEqualTo(first.equals("1"));
    return classes.rows().stream().map(NormTable.NormClass::name).toList();
  }

  @Test
  void namesAreShownAsTheyAreAndNumbersWithHowManyThereAre() {
    assertThat(names("low", "high")).containsExactly("low", "high");
    assertThat(names("1", "2")).containsExactly("class 1 of 2", "class 2 of 2");
  }

  @ParameterizedTest
  @CsvSource({"2, 1", "1, 3", "0, 1", "1, high", "low, 2"})
  void numbersThatDoNotCountFromOneAreRefused(String first, String second) {
    assertThatExceptionOfType(FileRefused.class)
        .isThrownBy(() -> tables(first, second))
        .withMessageContaining("number them 1, 2, 3, the best first");
  }
}
