package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Times.at;

import java.io.StringReader;
import java.util.Optional;
import javax.xml.parsers.DocumentBuilderFactory;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
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
        .contains("\nPerson\n", "\nProtocol\n", "\nStages\n", "\nDecisions\n", "\nEstimates\n")
        .contains(
            "\nPlausibility\n", "\nNorms\n", "\nTraining plan\n", "\nCautions\n", "\nSources\n")
        .contains("- walk_2; from: 3:00; lasted: 3:00; load: 2.5 mph, 12 %; heart rate: 136 bpm")
        .contains("maximal heart rate (220 - age)")
        .contains("heart rate: 110 to 131 bpm")
        .contains("Bruce RA, Kusumi F, Hosmer D.")
        .contains("This report advises a trained person, who decides.");
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
    assertThat(page.getElementsByTagName("section").getLength()).isEqualTo(11);
    assertThat(page.getElementsByTagName("circle").getLength()).isEqualTo(2);
    assertThat(page.getElementsByTagName("script").getLength()).isZero();
    assertThat(html).doesNotContain("http://").doesNotContain("https://").doesNotContain("url(");
    assertThat(page.getElementsByTagName("desc").item(0).getTextContent())
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
    assertThat(page.getElementsByTagName("section").getLength()).isEqualTo(9);
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
}
