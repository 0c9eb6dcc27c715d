package org.gradus.report;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.capacity.Capacity;
import org.gradus.diagnostic.ValueRefused;
import org.gradus.history.TestRecord;
import org.gradus.history.Title;
import org.gradus.knowledge.IntensityBands;
import org.gradus.knowledge.NormTable;
import org.gradus.library.Library;
import org.gradus.session.Event;
import org.gradus.session.Ledger;
import org.gradus.session.Outcome;
import org.gradus.session.Session;
import org.gradus.training.Training;
import org.gradus.words.FileText;
import org.gradus.words.Language;

/**
 * The report of a whole test. Its first page is for the person and for whoever signs it: how the
 * test ended, the result with its interval and among norms, heart rate against time, a training
 * plan, cautions. The details say how it came about: all readings, stages, decisions with their
 * rules, what the result rests on and where its doubt comes from, settings and numbered sources.
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
  private final Particulars about;
  private final List<Report> earlier;
  private final List<NormTable> norms;
  private final Optional<IntensityBands> bands;
  private final boolean cleared;
  private final Language language;

  private Report(
      Outcome outcome,
      List<Event> events,
      Particulars about,
      List<Report> earlier,
      List<NormTable> norms,
      Optional<IntensityBands> bands,
      boolean cleared,
      Language language) {
    this.outcome = outcome;
    this.events = List.copyOf(events);
    this.about = about;
    this.earlier = List.copyOf(earlier);
    this.norms = List.copyOf(norms);
    this.bands = bands;
    this.cleared = cleared;
    this.language = language;
  }

  /** The report of a test as it stands. */
  public static Report of(Session session) {
    return new Report(
        session.outcome(),
        session.events(),
        Particulars.NONE,
        List.of(),
        List.of(),
        Optional.empty(),
        false,
        Language.ENGLISH);
  }

  /**
   * The report of a test that was recorded, with its identity and its date as far as the record has
   * them.
   *
   * @throws org.gradus.diagnostic.RecordRefused when the protocol means something else in the
   *     library, or an event cannot have happened
   */
  public static Report of(TestRecord record, Library library) {
    Report report = of(record.resume(library, Ledger.NONE));
    Title title = record.title();
    Particulars about = title.identity().map(report.about::identity).orElse(report.about);
    return report.about(title.begun().map(about::begun).orElse(about));
  }

  private Report about(Particulars particulars) {
    return new Report(outcome, events, particulars, earlier, norms, bands, cleared, language);
  }

  /** With who was tested, in the host's own words. */
  public Report identity(String words) {
    requireNonNull(words, "words");
    return about(about.identity(words));
  }

  /**
   * With the date, and if you like the time, of the test, in the host's own words, in place of the
   * date of the record.
   */
  public Report date(String words) {
    requireNonNull(words, "words");
    return about(about.date(words));
  }

  /** With the place of the test, in the host's own words. */
  public Report place(String words) {
    requireNonNull(words, "words");
    return about(about.place(words));
  }

  /** With who gave the test and signs the report, in the host's own words. */
  public Report tester(String words) {
    requireNonNull(words, "words");
    return about(about.tester(words));
  }

  /**
   * With earlier tests of the same person: their results beside this one, and whether the capacity
   * has changed by more than repeated tests differ by. Give each of them its {@link #date}; of
   * anything else in them only the identity is looked at, and the report says so where two differ.
   *
   * @param tests the earliest first
   */
  public Report earlier(List<Report> tests) {
    requireNonNull(tests, "tests");
    return new Report(outcome, events, about, tests, norms, bands, cleared, language);
  }

  /** With the place of the result in these tables. */
  public Report norms(List<NormTable> tables) {
    requireNonNull(tables, "tables");
    return new Report(outcome, events, about, earlier, tables, bands, cleared, language);
  }

  /**
   * With a training plan by these bands. After an alarming stop the report says in its place that
   * there is none until the person has been cleared for exercise.
   */
  public Report bands(IntensityBands plan) {
    requireNonNull(plan, "plan");
    return new Report(outcome, events, about, earlier, norms, Optional.of(plan), cleared, language);
  }

  /**
   * Of a person who has been cleared for exercise after the stop that ended the test, as the host
   * was told after it was over. Without a stop it changes nothing.
   */
  public Report clearedAfterStop() {
    return new Report(outcome, events, about, earlier, norms, bands, true, language);
  }

  /**
   * In a language; in English where none is named. Give it the words of the protocol, so that what
   * its file says is translated too:
   *
   * <pre>{@code
   * report.in(library.language("graded-walk-standard", Locale.forLanguageTag("es")))
   * }</pre>
   *
   * <p>What the host says ({@link #identity}, {@link #date}, ...), reasons that a tester typed,
   * rules and formulas as the file writes them, and citations stay as they are.
   */
  public Report in(Language spoken) {
    requireNonNull(spoken, "spoken");
    return new Report(outcome, events, about, earlier, norms, bands, cleared, spoken);
  }

  private Words words() {
    return new Words(language);
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
    return new HtmlPage(words()).write(title(), sections());
  }

  /**
   * Several reports as one HTML file, each beginning on a sheet of its own, in their order.
   *
   * @throws ValueRefused when there is none
   */
  public static String html(List<Report> reports) {
    if (reports.isEmpty()) {
      throw new ValueRefused("a page of reports", "empty", "give at least one report");
    }
    Map<String, List<Section>> tests = new LinkedHashMap<>();
    for (Report report : reports) {
      Words words = report.words();
      String title =
          words.say(
              ReportMessage.TITLE_OF_ONE,
              tests.size() + 1,
              new FileText(report.outcome.protocol().heading().title()));
      tests.put(title, report.sections());
    }
    Words words = reports.get(0).words();
    return new HtmlPage(words)
        .write(words.say(ReportMessage.TITLE_OF_SEVERAL, reports.size()), tests);
  }

  private String title() {
    return words().say(ReportMessage.TITLE, new FileText(outcome.protocol().heading().title()));
  }

  private Capacity capacity() {
    Capacity told = Capacity.of(outcome);
    return cleared ? told.clearedAfterStop() : told;
  }

  // The sources come last, when everything has cited its own.
  private List<Section> sections() {
    Capacity capacity = capacity();
    Words words = words();
    References references = new References(words);
    Course course = new Course(outcome, events, words);
    ResultPart result =
        new ResultPart(capacity, norms, OtherWay.of(outcome, events), references, words);
    TestPart test = new TestPart(outcome, course, about, capacity, references, words);
    ClosingPart closing = new ClosingPart(outcome, capacity, about, references, words);
    Optional<PlanPart> plan =
        bands.map(by -> new PlanPart(Training.plan(capacity, by), outcome, references, words));
    List<Section> sections = new ArrayList<>();
    sections.add(new EndPart(outcome, capacity, course, references, words).section());
    sections.add(test.person());
    Optional<Section> further = new FurtherResults(capacity, references, words).section();
    boolean first =
        capacity.estimates().isEmpty()
            || outcome.protocol().assessment().headline().flatMap(capacity::result).isPresent();
    further.filter(section -> first).ifPresent(sections::add);
    if (further.isEmpty() || !capacity.estimates().isEmpty()) {
      sections.add(result.answer());
    }
    further.filter(section -> !first).ifPresent(sections::add);
    if (!earlier.isEmpty()) {
      sections.add(progress(capacity, references));
    }
    sections.add(test.course());
    plan.ifPresent(part -> sections.add(part.summary()));
    sections.add(closing.cautions());
    sections.add(test.readings());
    sections.add(test.stages());
    sections.add(test.decisions());
    sections.add(result.estimates());
    sections.add(result.findings());
    result.standings().ifPresent(sections::add);
    plan.flatMap(PlanPart::details).ifPresent(sections::add);
    sections.add(test.protocol());
    sections.add(closing.sources());
    return sections;
  }

  private Section progress(Capacity capacity, References references) {
    List<ProgressPart.Test> tests = new ArrayList<>();
    earlier.forEach(report -> tests.add(new ProgressPart.Test(report.about, report.capacity())));
    tests.add(new ProgressPart.Test(about, capacity));
    return new ProgressPart(tests, outcome.protocol().assessment().repeats(), references, words())
        .section();
  }
}
