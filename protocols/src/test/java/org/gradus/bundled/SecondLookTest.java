package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.gradus.session.Readings.answer;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.rating;
import static org.gradus.session.Readings.resting;
import static org.gradus.session.Times.at;

import java.util.List;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.capacity.Finding;
import org.gradus.capacity.Headline;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Person.Sex;
import org.gradus.protocol.Protocol;
import org.gradus.report.Report;
import org.gradus.session.Session;
import org.junit.jupiter.api.Test;

/** A second look at the capacity by perceived exertion stands beside the headline. */
class SecondLookTest {

  private static final String WALK = "graded-walk-standard";

  // Two stages that take 16.27 and 24.69 mL/kg/min, at 112 and 140 bpm.
  private static Session walk(Protocol protocol, int first, int second) {
    Session session = Session.open(protocol, Walked.person(25, Sex.FEMALE, 62).build());
    session.record(
        at("0:00"),
        resting(heartRate(64)),
        resting(pressure(122, 78)),
        answer("unwell_today", false),
        answer("recent_event", false),
        answer("pregnant", false));
    session.follow(session.decide(at("0:00")));
    session.record(at("2:00"), heartRate(110));
    session.record(at("2:15"), pressure(140, 80));
    session.record(at("2:45"), rating(first, "rpe_6_20"));
    session.follow(session.record(at("3:00"), heartRate(112)));
    session.record(at("5:00"), heartRate(138));
    session.record(at("5:15"), pressure(150, 80));
    session.record(at("5:45"), rating(second, "rpe_6_20"));
    session.follow(session.record(at("6:00"), heartRate(140)));
    return session;
  }

  private static Capacity capacity(int first, int second) {
    return Capacity.of(walk(Bundled.library().protocol(WALK), first, second).outcome());
  }

  private static Estimate.Available byRating(Capacity capacity) {
    return (Estimate.Available) capacity.estimate("by_rating").orElseThrow();
  }

  // 24.69 + (24.69 - 16.27) / 4 x (19 - 15) = 33.11; the headline is 40.43.
  @Test
  void bothAreShownAndNothingIsFoundWhereTheyAgree() {
    Capacity capacity = capacity(11, 15);
    assertThat(byRating(capacity).vo2max().amount()).isEqualTo(33.11, within(0.01));
    assertThat(byRating(capacity).interval()).isPresent();
    assertThat(capacity.headline().orElseThrow().id()).isEqualTo("through_rest");
    assertThat(capacity.headline().orElseThrow().vo2max().amount()).isEqualTo(40.43, within(0.01));
    assertThat(capacity.findings()).extracting(Finding::rule).doesNotContain("by-rating-disagrees");
  }

  // Who rates 6 and 10 is far from the end: 24.69 + 8.42 / 4 x 9 = 43.6 mL/kg/min. Who rates 6 and
  // 17
  // is near it: 24.69 + 8.42 / 11 x 2 = 26.2, and the headline says 40.4 (27.5 to 53.4).
  @Test
  void aFindingSaysSoWhereNeitherIntervalHoldsTheOther() {
    Capacity capacity = capacity(6, 17);
    assertThat(byRating(capacity).vo2max().amount()).isEqualTo(26.22, within(0.01));
    Finding finding =
        capacity.findings().stream()
            .filter(found -> found.rule().equals("by-rating-disagrees"))
            .findFirst()
            .orElseThrow();
    assertThat(finding.why()).contains("neither interval holds the other value", "Do not average");
    assertThat(finding.numbers()).contains("by rating 26.2", "through rest 40.4");
    assertThat(finding.source().toString()).contains("2005;94:221");
    assertThat(capacity.headline().orElseThrow().vo2max().amount()).isEqualTo(40.43, within(0.01));
    assertThat(capacity(10, 14).findings()).doesNotContain(finding);
  }

  @Test
  void ratingsThatHardlyRiseGiveNoSecondLook() {
    Estimate none = capacity(12, 13).estimate("by_rating").orElseThrow();
    assertThat(none).isInstanceOf(Estimate.Unavailable.class);
    assertThat(none.secondLook()).isTrue();
    assertThat(none.reasons().toString()).contains("close");
  }

  private static Library edited(String from, String to) {
    return Library.of(
        Bundled.files().stream()
            .map(
                file ->
                    file.name().endsWith(WALK + ".yaml")
                        ? SourceFile.of(file.name(), file.text().replace(from, to))
                        : file)
            .toList());
  }

  // Without a counted rate at the end of any stage nothing but the ratings is left; they are shown.
  @Test
  void itNeverStandsForTheHeadline() {
    Library onlyRatings =
        edited(
            "only_when: not ever(handrail)\n    vo2max: |-",
            "only_when: ever(handrail)\n    vo2max: |-");
    Library library =
        Library.of(
            onlyRatings.files().stream()
                .map(
                    file ->
                        file.name().endsWith(WALK + ".yaml")
                            ? SourceFile.of(
                                file.name(),
                                file.text()
                                    .replace(
                                        "only_when: not ever(handrail)\n    vo2max: extrapolate(uptake, heart_rate",
                                        "only_when: ever(handrail)\n    vo2max: extrapolate(uptake, heart_rate")
                                    .replace(
                                        "only_when: not ever(handrail)\n    where",
                                        "only_when: ever(handrail)\n    where")
                                    .replace(
                                        "only_when: not ever(handrail) and stage.time",
                                        "only_when: ever(handrail) and stage.time"))
                            : file)
                .toList());
    Session session = walk(library.protocol(WALK), 11, 15);
    Capacity capacity = Capacity.of(session.outcome());
    assertThat(byRating(capacity).vo2max().amount()).isEqualTo(33.11, within(0.01));
    assertThat(capacity.headline()).isEmpty();
    assertThat(Headline.of(session.outcome())).isEmpty();
  }

  @Test
  void aProtocolCannotMakeItItsHeadline() {
    assertThatThrownBy(() -> edited("\nestimates:\n", "\nheadline: by_rating\nestimates:\n"))
        .isInstanceOf(FileRefused.class)
        .hasMessageContaining("there is no estimate or result called by_rating");
  }

  @Test
  void theReportCallsItASecondLook() {
    String text = Report.of(walk(Bundled.library().protocol(WALK), 6, 17)).text();
    assertThat(text).contains("by rating (second look)", "Do not average them");
  }

  @Test
  void everySecondLookOfTheLibraryIsBesideAnEstimateThatIsNone() {
    List<String> with =
        Bundled.library().protocols().stream()
            .filter(
                id ->
                    Bundled.library().protocol(id).assessment().estimates().stream()
                        .anyMatch(line -> line.secondLook()))
            .toList();
    assertThat(with)
        .containsExactly(
            "cycle-25w-steps", "cycle-branching", "graded-walk-modified", "graded-walk-standard");
    for (String id : with) {
      assertThat(Bundled.library().protocol(id).assessment().estimates().get(0).secondLook())
          .isFalse();
    }
  }
}
