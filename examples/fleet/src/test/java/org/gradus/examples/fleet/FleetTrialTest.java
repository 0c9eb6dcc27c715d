package org.gradus.examples.fleet;

import static org.assertj.core.api.Assertions.assertThat;

import org.apache.flink.streaming.api.environment.StreamExecutionEnvironment;
import org.gradus.bundled.Bundled;
import org.gradus.library.Library;
import org.gradus.trial.Summary;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A trial on a cluster comes to what it comes to on one core. */
class FleetTrialTest {

  private static final String WALK = "graded-walk-standard";
  private static final Library LIBRARY = Bundled.library(WALK);

  @ParameterizedTest
  @ValueSource(ints = {1, 3})
  void theSummaryIsTheSameToTheLastDigit(int tasks) throws Exception {
    FleetTrial trial = new FleetTrial(ProtocolFiles.of(LIBRARY, WALK, 0), 1_100, 42);
    StreamExecutionEnvironment flink =
        StreamExecutionEnvironment.getExecutionEnvironment(Fleet.settings());
    flink.setParallelism(tasks);

    Summary summary = trial.run(flink);

    assertThat(summary.all().people()).isEqualTo(1_100);
    assertThat(summary).isEqualTo(trial.trial().run());
    assertThat(summary.toString()).isEqualTo(trial.trial().run().toString());
  }
}
