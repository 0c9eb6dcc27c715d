package org.gradus.examples.workbench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.List;
import java.util.stream.IntStream;
import org.gradus.bundled.Bundled;
import org.gradus.trial.Population;
import org.gradus.trial.Summary;
import org.gradus.trial.Trial;
import org.junit.jupiter.api.Test;

/** A trial in a terminal that is too narrow for its table. */
class NarrowSummaryTest {

  private final Summary summary =
      Trial.of(
              Bundled.library().and(Path.of("../own-protocol")).protocol("canal-walk"),
              Population.read(Bundled.people()))
          .people(60)
          .seed(1)
          .run();

  @Test
  void anUsualTerminalHasATableWithEverybodyInIt() {
    List<String> lines = NarrowSummary.lines(summary, 80);
    assertThat(lines).allSatisfy(line -> assertThat(line.length()).isLessThanOrEqualTo(80));
    String all = lines.stream().filter(line -> line.startsWith("all ")).findFirst().orElseThrow();
    String[] cells = all.split("\\s+", -1);
    assertThat(cells).hasSize(12);
    assertThat(cells[1]).isEqualTo("60");
    // Finished, stopped, undecided and deferred are everybody; each is rounded.
    double ends = IntStream.rangeClosed(2, 5).mapToDouble(i -> Double.parseDouble(cells[i])).sum();
    assertThat(ends).isCloseTo(100, within(0.2));
  }

  @Test
  void aNarrowOneHasLinesForEachGroup() {
    List<String> lines = NarrowSummary.lines(summary, 40);
    assertThat(lines).allSatisfy(line -> assertThat(line.length()).isLessThanOrEqualTo(40));
    assertThat(lines).contains("all: 60 people");
    assertThat(String.join("\n", lines)).contains("women: ", "men: ", "ended by (all)");
  }
}
