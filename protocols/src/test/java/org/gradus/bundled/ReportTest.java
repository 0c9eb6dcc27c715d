package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Times.at;

import java.io.StringReader;
import java.util.List;
import java.util.Optional;
import javax.xml.parsers.DocumentBuilderFactory;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.protocol.Person.Sex;
import org.gradus.report.Report;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.xml.sax.InputSource;

class ReportTest {

  private static final Library LIBRARY = Bundled.library();

  private static Session walked() {
    return Walked.walk(Walked.person(46, Sex.FEMALE, 71).build(), 116, 136);
  }

  private static Report whole(Session session) {
    return Report.of(session).norms(LIBRARY.norms()).bands(LIBRARY.bands("bands-2011"));
  }

  // 37.63 mL/kg/min and 10.8 MET by hand; see Walked.ines.
  @Test
  void theTextHasEveryPart() {
    assertThat(whole(walked()).text())
        .contains("37.6 mL/kg/min (10.8 MET), 95 % interval ")
        .contains("\nHow the test ended\n", "\nPerson\n", "\nResult\n", "\nHeart rate over time\n")
        .contains("\nTraining plan\n", "\nCautions\n", "\nReadings before and after\n")
        .contains("\nStages\n", "\nDecisions\n", "\nEstimates\n", "\nPlausibility\n", "\nNorms\n")
        .contains("\nTraining in detail\n", "\nProtocol\n", "\nSources\n")
        .contains("- walk_2; from: 3:00; lasted: 3:00; load: 2.5 mph, 12 %; heart rate: 136 bpm")
        .contains("maximal heart rate (220 - age)")
        .contains("heart rate: 110 to 131 bpm")
        .contains("Bruce RA, Kusumi F, Hosmer D.")
        .contains("This report advises a trained person, who decides.");
  }

  // The third stage costs 35.63 by the walking equation and 31.5 mL/kg/min as printed. By the
  // single
  // stage that is 35.63 or 31.5 times (174 - 72) / (140 - 72): 53.4 and 47.3, worked by hand.
  @Test
  void anotherWayOfWorkingOutTheStagesStandsBesideTheFirst() {
    Person ines = Walked.person(46, Sex.FEMALE, 71).build();
    String text = Report.of(Walked.walk(ines, 112, 126, 140)).text().replaceAll("\\s+", " ");
    assertThat(text)
        .contains("With another stage uptake (printed) the same readings give 46.2 (")
        .containsPattern(
            "single stage; aerobic capacity: 53\\.4 mL/kg/min; [^;]*;"
                + " with stage uptake: printed: 47\\.3 \\([^)]*\\); what it assumes");
    Session session = Walked.walk(Walks.WALK.with("stage_uptake", "printed"), ines, 112, 126, 140);
    assertThat(Report.of(session).text().replaceAll("\\s+", " "))
        .containsPattern(
            "single stage; aerobic capacity: 47\\.3 mL/kg/min; [^;]*;"
                + " with stage uptake: equation: 53\\.4 \\([^)]*\\); what it assumes");
  }

  // 17.5 and 24.5 instead of 16.27 and 24.69 mL/kg/min: less than a rate counted to 4 bpm is sure
  // of.
  @Test
  void aWayThatMakesNoDifferenceIsLeftOut() {
    assertThat(whole(walked()).text())
        .doesNotContain("with stage uptake")
        .doesNotContain("With another");
  }

  @Test
  void aNarrowReportHasTheSameWords() {
    Report report = whole(walked());
    assertThat(report.text(40).lines())
        .allSatisfy(line -> assertThat(line.length()).isLessThanOrEqualTo(40));
    assertThat(report.text(40).replaceAll("\\s", ""))
        .isEqualTo(report.text().replaceAll("\\s", ""));
  }

  @Test
  void theHtmlIsWholeAndFetchesNothing() throws Exception {
    String html = whole(walked()).html();
    Document page = parsed(html);
    assertThat(page.getElementsByTagName("h1").getLength()).isEqualTo(1);
    assertThat(page.getElementsByTagName("section").getLength()).isEqualTo(15);
    // The four heart rates against time, and two stages against uptake.
    assertThat(page.getElementsByTagName("circle").getLength()).isEqualTo(6);
    assertThat(page.getElementsByTagName("script").getLength()).isZero();
    assertThat(html).doesNotContain("http://").doesNotContain("https://").doesNotContain("url(");
    assertThat(page.getElementsByTagName("desc").item(0).getTextContent())
        .startsWith("this test: 37.6, 95 % interval ")
        .contains("percentiles, 40 to 49 years, treadmill, 2015: 5 17, 10 18.8, 25 22.1, 50 26.7");
    assertThat(page.getElementsByTagName("desc").item(1).getTextContent())
        .isEqualTo(
            "walk_1 from 0:00 to 3:00 at 1.7 mph, 10 %, used for the result. walk_2 from 3:00 to"
                + " 6:00 at 2.5 mph, 12 %, used for the result. Heart rate in bpm: 2:00 116,"
                + " 3:00 116, 5:00 136, 6:00 136. The exercise ended at 6:00: FINISH.");
    assertThat(page.getElementsByTagName("desc").item(2).getTextContent())
        .startsWith("Heart rate against oxygen uptake. walk_1: 116 bpm at 16.3 mL/kg/min, used.")
        .contains("Read at 174 bpm: 37.6 mL/kg/min");
    for (int i = 0; i < page.getElementsByTagName("table").getLength(); i++) {
      Document table = page;
      assertThat(table.getElementsByTagName("caption").item(i).getTextContent()).isNotBlank();
    }
  }

  // The page is written so that an XML parser takes it too, once the void elements are closed: what
  // is not escaped breaks it.
  private static Document parsed(String html) throws Exception {
    String xml = html.replace("<!doctype html>\n", "").replaceAll("<meta ([^>]*)>", "<meta $1/>");
    DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
    factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
    return factory.newDocumentBuilder().parse(new InputSource(new StringReader(xml)));
  }

  @Property(tries = 100)
  void whateverTheHostSaysStandsForItself(@ForAll String words) throws Exception {
    Session session = Walks.walking(Walks.ines());
    if (!words.isBlank()) {
      session.override(at("0:30"), new Verdict.Finish(), words);
    }
    Document page = parsed(Report.of(session).identity(words + "<script>").html());
    assertThat(page.getElementsByTagName("script").getLength()).isZero();
    assertThat(page.getElementsByTagName("section").getLength()).isEqualTo(12);
  }

  @Test
  void whoItWasIsSaidOnlyWhenTheHostSaysSo() {
    assertThat(Report.of(walked()).text()).doesNotContain("identity");
    assertThat(Report.of(walked()).identity("No. 17, <b>Ines</b>").html())
        .contains("<bdi>No. 17, &lt;b&gt;Ines&lt;/b&gt;</bdi>");
  }

  @Test
  void aLineBreakInAWordDrawsNoLineOfItsOwn() {
    assertThat(Report.of(walked()).identity("Ines\nResult\n------\n99 mL/kg/min").text())
        .contains("identity: Ines Result ------ 99 mL/kg/min");
  }

  @Test
  void overridesShowWhatWasRecommendedToo() {
    Session session = Walks.walking(Walks.ines(), 110, 112);
    session.override(at("3:00"), new Verdict.Hold(at("4:00")), "to be sure");
    assertThat(Report.of(session).text())
        .contains(
            "HOLD until 4:00 – the tester's own decision; why: to be sure. Recommended was ADVANCE");
  }

  @Test
  void aTestWithoutAResultIsReportedAsSuch() {
    Session session = Walks.walking(Walks.ines());
    session.record(at("1:00"), heartRate(100));
    assertThat(whole(session).text())
        .contains("No aerobic capacity could be estimated from this test.")
        .contains("No uptakes and loads: no capacity could be estimated. The rating leads.");
  }

  @Test
  void aRecordGivesTheSameReportAsTheLiveTest() {
    Session live = walked();
    TestRecord record = TestRecord.parse("walk", TestRecord.of(live, Optional.of("No. 17")).text());
    assertThat(Report.of(record, LIBRARY).html())
        .isEqualTo(Report.of(live).identity("No. 17").html());
  }

  @Test
  void anAlarmingStopStandsBeforeEverythingElse() {
    Session session = Walks.walking(Walks.ines(), 110, 112);
    session.follow(session.decide(at("3:00")));
    session.follow(session.report(at("4:10"), "chest_pain"));
    Report report = whole(session);
    assertThat(report.text().lines().skip(2).limit(5).toList())
        .startsWith("How the test ended", "------------------")
        .anyMatch(
            line ->
                line.startsWith(
                    "! The exercise ended at 4:10, 1:10 into walk_2, with STOP for chest pain: rule"));
    assertThat(report.html().indexOf("<strong>Stopped:</strong>"))
        .isPositive()
        .isLessThan(report.html().indexOf("<h2 id=\"person\">"));
  }

  @Test
  void aSignThatWasTakenBackDidNotEndTheExercise() {
    Session session = Walks.walking(Walks.ines());
    int event = session.report(at("2:10"), "light_headed").event();
    session.reject(at("2:20"), event, "light_headed", "it was the other person");
    session.override(at("2:40"), new Verdict.Finish(), "the room is needed");
    assertThat(Report.of(session).text().replaceAll("\\s+", " "))
        .contains("2:40 into walk_1, with FINISH, as the tester decided: the room is needed.");
  }

  @Test
  void anAmendedReadingIsDrawnAsItCounts() {
    Session session = Walks.walking(Walks.ines());
    int event = session.record(at("2:00"), heartRate(191)).event();
    session.amend(at("2:05"), event, heartRate(119), "misheard");
    session.follow(session.record(at("3:00"), heartRate(119)));
    assertThat(Report.of(session).html())
        .contains("Heart rate in bpm: 2:00 119, 3:00 119.")
        .contains("put right: heart rate 191\u00a0bpm is heart rate 119\u00a0bpm");
  }

  @Test
  void everySourceIsPrintedOnceAndCitedByItsNumber() {
    String text = whole(walked()).text().replaceAll("\\s+", " ");
    String sources = text.substring(text.indexOf(" Sources ------- "));
    int last = 0;
    for (int number = 1; sources.contains(" " + number + ". "); number++) {
      last = number;
    }
    assertThat(last).isGreaterThan(10);
    for (int number = 1; number <= last; number++) {
      int from = sources.indexOf(" " + number + ". ") + 3 + Integer.toString(number).length();
      int next = sources.indexOf(" " + (number + 1) + ". ");
      String source = sources.substring(from, next < 0 ? sources.indexOf(" The file") : next);
      assertThat(text.split(java.util.regex.Pattern.quote(source), -1)).as(source).hasSize(2);
      assertThat(text).containsPattern("source:? " + number + "\\b");
    }
  }

  @Test
  void formulasAreFoldedAwayAndSharesAreDrawn() throws Exception {
    Document page = parsed(whole(walked()).html());
    assertThat(page.getElementsByTagName("details").getLength()).isPositive();
    assertThat(page.getElementsByTagName("details").item(0).getTextContent())
        .startsWith("with figures");
    int drawn = 0;
    for (int i = 0; i < page.getElementsByTagName("i").getLength(); i++) {
      String width =
          page.getElementsByTagName("i")
              .item(i)
              .getAttributes()
              .getNamedItem("style")
              .getNodeValue();
      drawn += Integer.parseInt(width.replaceAll("\\D", ""));
    }
    assertThat(drawn).as("all shares together").isEqualTo(100);
  }

  @Test
  void datePlaceAndTesterStandOnTheFirstPage() {
    String html = Report.of(walked()).date("3 May").place("Room <3>").tester("A. B.").html();
    assertThat(html.substring(0, html.indexOf("class=\"details\"")))
        .contains("<bdi>3 May</bdi>", "<bdi>Room &lt;3&gt;</bdi>", "Signature of A. B.");
  }

  // By the same person, 116 and 136 bpm against 110 and 130: the later line lies higher.
  @Test
  void severalTestsStandBesideEachOtherWithWhatHasChanged() throws Exception {
    Report first = Report.of(walked()).identity("No. 17").date("March");
    Session later = Walked.walk(Walked.person(46, Sex.FEMALE, 71).build(), 110, 130, 139);
    Report report = whole(later).identity("No. 17").date("May").earlier(List.of(first));
    assertThat(report.text().replaceAll("\\s+", " "))
        .contains("Results over time")
        .contains("March: 37.6 mL/kg/min: 37.6, 95 % interval ")
        .containsPattern(
            "capacity has changed by \\+[0-9.]+ mL/kg/min: within the [0-9.]+ mL/kg/min")
        .doesNotContain("sexes in these tests differ");
    assertThat(parsed(report.html()).getElementsByTagName("section").getLength()).isEqualTo(16);
    assertThat(report.identity("No. 18").text().replaceAll("\\s+", " "))
        .contains("identities or sexes in these tests differ");
  }
}
