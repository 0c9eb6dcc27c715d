package org.gradus.session;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.gradus.session.Times.at;

import java.util.List;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/** What the exercise ends with sets only what recovery sets. */
class LoadsAfterwardsTest {

  @Test
  void aLoadThatNothingSetsAfterwardsIsRefused() {
    Session session = Slope.walk("{ id: high, rule: stop when heart_rate > 180 bpm }");
    Loading speed = new Loading("speed", Quantity.of(2, Unit.KMH));
    ReadingRefused refused =
        catchThrowableOfType(
            ReadingRefused.class,
            () -> session.override(at("1:00"), new Verdict.Finish(List.of(speed)), "enough"));
    assertThat(refused.code()).isEqualTo(Code.G508);
    assertThat(session.phase()).isEqualTo(Phase.STAGE);
  }
}
