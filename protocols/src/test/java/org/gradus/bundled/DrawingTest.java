package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.gradus.bundled.Walks.ines;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Times.at;

import java.util.List;
import java.util.stream.Stream;
import org.gradus.diagnostic.NotFound;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.RuleBook;
import org.gradus.rule.plan.Frame;
import org.gradus.session.Session;
import org.junit.jupiter.api.Test;

/** Any rule of a live test can be seen with its values. */
class DrawingTest {

  private final Session session = Walks.walking(ines());

  @Test
  void aRuleOfTheStageEndShowsWhatItSawAndHowOldThatIs() {
    session.record(at("2:00"), heartRate(104));
    session.record(at("3:00"), heartRate(112));
    String drawn = session.diagram(at("3:10"), "not-yet-steady").toString();
    assertThat(drawn)
        .startsWith(
            """
            hold 1 min at most 2 times when not steady
                                                ------
                                                no
                                            ----------
                                            yes

            steady is
            """)
        .contains(
            """
              abs(change(heart_rate, 1 min)) <= steady_band
                  -------------------------     -----------
                  8 bpm                         5 bpm
              ------------------------------
              8 bpm
              ---------------------------------------------
              no
            """
                .stripTrailing());
  }

  @Test
  void aReadingHasItsAgeAndAMissingOneItsReason() {
    session.record(at("2:55"), heartRate(112));
    String drawn = session.diagram(at("3:05"), "next").toString();
    assertThat(drawn).isEqualTo("advance");
    drawn = session.diagram(at("3:05"), "steady-and-high").toString();
    assertThat(drawn).contains("112 bpm").contains("10 s old").contains("unknown");
    assertThat(session.diagram(at("3:05"), "systolic-high").toString()).contains("never taken");
  }

  @Test
  void anUnknownRuleIsNamedWithTheNearest() {
    assertThatExceptionOfType(NotFound.class)
        .isThrownBy(() -> session.diagram(at("0:10"), "steady-and-hight"))
        .withMessageContaining("there is no rule called steady-and-hight")
        .withMessageContaining("did you mean steady-and-high?");
  }

  @Test
  void everyRuleOfEveryProtocolCanBeDrawnBeforeAnythingIsKnown() {
    for (String id : Bundled.library().protocols()) {
      Protocol protocol = Bundled.library().protocol(id);
      Frame nothing = new Frame(protocol.wiring().layout());
      RuleBook rules = protocol.rules();
      assertThat(
              Stream.of(rules.before(), rules.anyTime(), rules.stageEnd(), rules.recovery())
                  .flatMap(List::stream))
          .allSatisfy(
              rule ->
                  assertThat(rule.rule().diagram(nothing, 0).figures().get(0).lines().get(0))
                      .isEqualTo(rule.rule().text().replaceAll("\\s+", " ")));
    }
  }
}
