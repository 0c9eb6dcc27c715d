package org.gradus.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.capacity.Capacity;
import org.gradus.history.TestRecord;
import org.gradus.knowledge.IntensityBands;
import org.gradus.knowledge.NormTable;
import org.gradus.library.Library;
import org.gradus.session.Event;
import org.gradus.session.Ledger;
import org.gradus.session.Outcome;
import org.gradus.session.Session;
import org.gradus.training.Training;

/**
 * The report of a whole test: person, protocol, stages, heart rate against uptake, decisions with
 * their reasons, estimates with their intervals, findings, norms, a training plan, cautions and
 * sources.
 *
 * <pre>{@code
 * Report report =
 *     Report.of(session).norms(library.norms()).bands(library.bands("bands-2011"));
 * Files.writeString(file, report.html());
 * System.out.println(report.text());
 * }</pre>
 *
 * <p>The HTML is one file without scripts and without anything to fetch, readable on paper, on a
 * phone and with a screen reader. Whatever a host or a file says is escaped. Without an {@link
 * #identity} it names nobody.
 *
 * <p>A report advises a trained person who decides; it is no diagnosis.
 */
public final class Report {

  /** What every report says first of all that is to be kept in mind. */
  public static final String CAUTION =
      "This report advises a trained person, who decides. It is no diagnosis, and what made it is"
          + " no medical device. Medical clearance, an emergency plan, local rules and licensed"
          + " practice come before anything it says.";

  private final Outcome outcome;
  private final List<Event> events;
  private final Optional<String> identity;
  private final List<NormTable> norms;
  private final Optional<IntensityBands> bands;
  private final boolean cleared;

  private Report(
      Outcome outcome,
      List<Event> events,
      Optional<String> identity,
      List<NormTable> norms,
      Optional<IntensityBands> bands,
      boolean cleared) {
    this.outcome = outcome;
    this.events = List.copyOf(events);
    this.identity = identity;
    this.norms = List.copyOf(norms);
    this.bands = bands;
    this.cleared = cleared;
  }

  /** The report of a test as it stands. */
  public static Report of(Session session) {
    return new Report(
        session.outcome(), session.events(), Optional.empty(), List.of(), Optional.empty(), false);
  }

  /**
   * The report of a test that was recorded, with its identity if the record has one.
   *
   * @throws org.gradus.diagnostic.RecordRefused when the protocol means something else in the
   *     library, or an event cannot have happened
   */
  public static Report of(TestRecord record, Library library) {
    Report report = of(record.resume(library, Ledger.NONE));
    return record.title().identity().map(report::identity).orElse(report);
  }

  /** With who it was, and when, in the host's own words. */
  public Report identity(String words) {
    return new Report(outcome, events, Optional.of(words), norms, bands, cleared);
  }

  /** With the place of the result in these tables. */
  public Report norms(List<NormTable> tables) {
    return new Report(outcome, events, identity, tables, bands, cleared);
  }

  /**
   * With a training plan by these bands. After an alarming stop the report says in its place that
   * there is none until the person has been cleared for exercise.
   */
  public Report bands(IntensityBands plan) {
    return new Report(outcome, events, identity, norms, Optional.of(plan), cleared);
  }

  /**
   * Of a person who has been cleared for exercise after the stop that ended the test, as the host
   * was told after it was over. Without a stop it changes nothing.
   */
  public Report clearedAfterStop() {
    return new Report(outcome, events, identity, norms, bands, true);
  }

  /** As plain text, in lines of at most 100 characters. */
  public String text() {
    return text(TextPage.WIDTH);
  }

  /**
   * As plain text for a narrow screen.
   *
   * @param columns how many characters a line has at most; at least 20
   */
  public String text(int columns) {
    return new TextPage(columns).write(title(), sections());
  }

  /** As one HTML file. */
  public String html() {
    return new HtmlPage(outcome.protocol().heading().language()).write(title(), sections());
  }

  private String title() {
    return "Exercise test: " + outcome.protocol().heading().title();
  }

  private List<Section> sections() {
    Capacity told = Capacity.of(outcome);
    Capacity capacity = cleared ? told.clearedAfterStop() : told;
    ResultPart result = new ResultPart(outcome, capacity, norms);
    TestPart test = new TestPart(outcome, events, identity, capacity);
    List<Section> sections = new ArrayList<>();
    sections.add(result.answer());
    sections.add(test.person());
    sections.add(test.protocol());
    sections.add(test.stages());
    sections.add(test.decisions());
    sections.add(result.estimates());
    sections.add(result.findings());
    if (!norms.isEmpty()) {
      sections.add(result.standings());
    }
    bands.ifPresent(plan -> sections.add(new PlanPart(Training.plan(capacity, plan)).section()));
    sections.add(new ClosingPart(outcome, capacity, norms, bands).cautions());
    sections.add(new ClosingPart(outcome, capacity, norms, bands).sources());
    return sections;
  }
}
