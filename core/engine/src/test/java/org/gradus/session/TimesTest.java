package org.gradus.session;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.LongRange;
import org.gradus.diagnostic.ValueRefused;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class TimesTest {

  @Property(seed = "20261205")
  void whatIsWrittenExactlyIsReadBack(
      @ForAll @LongRange(min = -86_400_000_000_000L, max = 86_400_000_000_000L) long nanos) {
    Duration time = Duration.ofNanos(nanos);
    assertThat(Times.at(Times.exact(time))).isEqualTo(time);
  }

  @ParameterizedTest
  @CsvSource({
    "PT0S, 0:00",
    "PT3M, 3:00",
    "PT3M0.25S, 3:00.25",
    "-PT30S, -0:30",
    "-PT0.001S, -0:00.001",
    "PT1H2M30S, 1:02:30",
    "PT24H, 24:00:00",
    "PT0.000000001S, 0:00.000000001"
  })
  void aTimeIsWrittenAsOnAStopwatch(String time, String text) {
    assertThat(Times.exact(Duration.parse(time))).isEqualTo(text);
    assertThat(Times.at(text)).isEqualTo(Duration.parse(time));
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "3", "3:60", "3:0", "3:00.", "--3:00", "3:00.1234567890", "3:00 "})
  void whatIsNoTimeIsRefused(String text) {
    assertThatThrownBy(() -> Times.at(text))
        .isInstanceOf(ValueRefused.class)
        .hasMessageContaining("3:00 or 1:02:30");
  }
}
