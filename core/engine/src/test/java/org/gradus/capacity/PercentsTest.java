package org.gradus.capacity;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;

class PercentsTest {

  // Each rounded for itself they would be 54, 18, 14, 12 and 3: 101.
  @Test
  void partsAddUpToTheWhole() {
    assertThat(Percents.of(new double[] {0.538, 0.179, 0.139, 0.116, 0.028}))
        .containsExactly(54, 18, 14, 11, 3);
    assertThat(Percents.of(new double[] {1.0 / 3, 1.0 / 3, 1.0 / 3})).containsExactly(34, 33, 33);
    assertThat(Percents.of(new double[0])).isEmpty();
  }

  @Property
  void anyPartsAddUpAndNoneIsOffByOneOrMore(
      @ForAll @Size(min = 1, max = 12) List<@DoubleRange(min = 0.01, max = 100) Double> weights) {
    double whole = weights.stream().mapToDouble(w -> w).sum();
    double[] parts = weights.stream().mapToDouble(w -> w / whole).toArray();
    int[] percents = Percents.of(parts);
    assertThat(Arrays.stream(percents).sum()).isEqualTo(100);
    for (int i = 0; i < parts.length; i++) {
      assertThat(Math.abs(percents[i] - 100 * parts[i])).isLessThan(1 + 1e-9);
    }
  }
}
