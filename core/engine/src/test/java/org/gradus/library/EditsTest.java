package org.gradus.library;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatNoException;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.SourceFile;

/** Whatever slips into a file, it loads or is refused with places inside it, and soon. */
class EditsTest {

  private static final String SIGNS =
      " :#,-{}[]()&*!|>'\"%@`\t\n\r\u0000\u00A0\uFEFF<=0159.aeinst_";

  /** One change to a text: what is done where, and with which character. */
  record Edit(int what, int where, char sign) {}

  @Provide
  Arbitrary<List<Edit>> edits() {
    Arbitrary<Integer> what = Arbitraries.integers().between(0, 5);
    Arbitrary<Integer> where = Arbitraries.integers().between(0, 1_000_000).withoutEdgeCases();
    Arbitrary<Character> sign = Arbitraries.of(SIGNS.chars().mapToObj(c -> (char) c).toList());
    return Combinators.combine(what, where, sign).as(Edit::new).list().ofMinSize(1).ofMaxSize(3);
  }

  @Property(tries = 500)
  void aFileWithSlipsLoadsOrIsRefusedWithPlacesInsideIt(@ForAll("edits") List<Edit> edits) {
    List<String> texts = new ArrayList<>(List.of(Meadow.WALK, Meadow.WATCH, Meadow.EQUATIONS));
    for (Edit edit : edits) {
      int file = edit.where() % texts.size();
      texts.set(file, edited(texts.get(file), edit));
    }
    long start = System.nanoTime();
    try {
      Library library = Meadow.library(texts.get(0), texts.get(1), texts.get(2));
      assertThat(library.protocols()).hasSize(1);
    } catch (FileRefused refused) {
      assertThat(refused.diagnostics()).isNotEmpty();
      refused.diagnostics().forEach(EditsTest::liesInside);
    }
    assertThat(Duration.ofNanos(System.nanoTime() - start)).isLessThan(Duration.ofSeconds(5));
  }

  private static void liesInside(Diagnostic problem) {
    SourceFile file = problem.where().file();
    assertThat(file.name()).isIn("walk.yaml", "watch.yaml", "equations.yaml");
    assertThat(problem.where().start()).isBetween(0, problem.where().end());
    assertThat(problem.where().end()).isLessThanOrEqualTo(file.text().length());
    assertThatNoException().isThrownBy(problem::toString);
  }

  private static String edited(String text, Edit edit) {
    int at = text.isEmpty() ? 0 : edit.where() % text.length();
    List<String> lines = new ArrayList<>(Arrays.asList(text.split("\n", -1)));
    int line = edit.where() % lines.size();
    switch (edit.what()) {
      case 0 -> {
        return text.substring(0, at) + edit.sign() + text.substring(at);
      }
      case 1 -> {
        return text.substring(0, at) + text.substring(Math.min(text.length(), at + 1));
      }
      case 2 -> {
        return text.substring(0, at)
            + edit.sign()
            + text.substring(Math.min(text.length(), at + 1));
      }
      case 3 -> lines.remove(line);
      case 4 -> lines.add(line, lines.get(line));
      default -> lines.add(lines.remove(line));
    }
    return String.join("\n", lines);
  }
}
