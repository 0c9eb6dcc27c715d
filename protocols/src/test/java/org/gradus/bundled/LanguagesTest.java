package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Person.Sex;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.RuleBook;
import org.gradus.report.Report;
import org.gradus.session.Readings;
import org.gradus.session.Session;
import org.gradus.session.Times;
import org.gradus.words.Language;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The standard walk in Spanish and in German. */
class LanguagesTest {

  private static final Library LIBRARY = Bundled.library();
  private static final String WALK = "graded-walk-standard";

  // Words that no Spanish or German sentence has.
  private static final Pattern ENGLISH =
      Pattern.compile(
          "\\b(the|and|of|with|is|are|were|for|from|at|to|by|not|this|that|which|than|heart"
              + "|rate|stage|steady|load|test|age|speed|grade|rest|resting|measured|person|people"
              + "|result|interval|reading|below|above|between|needs|found|uptake|line|rating)\\b");

  private static Language in(String language) {
    return LIBRARY.language(WALK, Locale.forLanguageTag(language));
  }

  private static Session walked() {
    return Walked.walk(Walked.person(46, Sex.FEMALE, 71).build(), 116, 136);
  }

  // What is no sentence of anybody stays: rules and formulas, ids, and citations.
  private static List<String> english(String text) {
    List<String> found = new ArrayList<>();
    for (String line : text.lines().toList()) {
      String said =
          line.replaceAll("<details class=\"figures\">.*?</details>", "")
              .replaceAll("graded-walk-standard|steady-and-high|rpe_6_20|220 - age", "");
      if (ENGLISH.matcher(said).find()) {
        found.add(line);
      }
    }
    return found;
  }

  private static String withoutRulesAndCitations(String html) {
    return html.replaceAll("(?s)<style>.*?</style>", "")
        .replaceAll("(?s)<ol class=\"columns\">.*?</ol>", "")
        .replaceAll("(?s)<details class=\"figures\">.*?</details>", "")
        .replaceAll("<p>[^<]*extrapolate_through[^<]*</p>", "")
        .replaceAll("<td>[^<]*\\(age \\[[^<]*</td>", "")
        .replaceAll("<li>[^<]*metabolic equations[^<]*</li>", "")
        .replaceAll("<[^>]*>", "\n")
        .replaceAll("95-%-Intervall", "");
  }

  @ParameterizedTest
  @ValueSource(strings = {"es", "de-AT"})
  void theReportOfAWholeWalkHasNoEnglishWord(String language) {
    Report report =
        Report.of(walked())
            .norms(LIBRARY.norms())
            .bands(LIBRARY.bands("bands-2011"))
            .in(in(language));
    assertThat(english(withoutRulesAndCitations(report.html()))).isEmpty();
    assertThat(report.html()).contains("<html lang=\"" + language.substring(0, 2) + "\">");
  }

  @Test
  void aReportSaysTheSameFiguresInEveryLanguage() {
    Report report = Report.of(walked()).bands(LIBRARY.bands("bands-2011"));
    Pattern figures = Pattern.compile("[0-9]+[.:][0-9]+");
    List<List<String>> each = new ArrayList<>();
    for (String language : List.of("en", "es", "de")) {
      List<String> found =
          figures.matcher(report.in(in(language)).text()).results().map(m -> m.group()).toList();
      each.add(found.stream().sorted().toList());
    }
    assertThat(each.get(1)).isEqualTo(each.get(0)).hasSizeGreaterThan(40);
    assertThat(each.get(2)).isEqualTo(each.get(0));
  }

  @Test
  void whatIsRefusedIsSaidInSpanish() {
    Session session = Walks.walking(Walks.ines());
    assertThatThrownBy(() -> session.record(Times.at("1:00"), Readings.heartRate(20)))
        .isInstanceOfSatisfying(
            ReadingRefused.class,
            refused -> {
              assertThat(in("es").say(refused.problem()))
                  .isEqualTo(
                      "frecuencia cardíaca de 20 bpm está fuera de lo posible, 25 bpm a 250 bpm");
              assertThat(in("es").say(refused.help())).isEqualTo("léalo otra vez");
              assertThat(in("fr").say(refused.help())).isEqualTo("read it again");
            });
  }

  @Test
  void aVerdictAndItsReasonAreSaidInGerman() {
    Session session = walked();
    String end =
        session.events().stream()
            .flatMap(event -> event.actedOn().stream())
            .reduce((first, last) -> last)
            .map(verdict -> in("de").say(verdict.message()))
            .orElseThrow();
    assertThat(end).isEqualTo("ABSCHLIESSEN");
    assertThat(in("de").say(session.decide(Times.at("6:00")).verdict().message()))
        .startsWith("WEITER bis ");
  }

  /** All that the person at the walk is asked or told. */
  private static Set<String> asked(Protocol walk) {
    Set<String> texts = new TreeSet<>();
    texts.add(walk.heading().title());
    texts.addAll(walk.heading().cautions());
    walk.instruments().questions().values().forEach(question -> texts.add(question.prompt()));
    walk.instruments().signs().values().forEach(sign -> texts.add(sign.prompt()));
    RuleBook book = walk.rules();
    Stream.of(book.before(), book.anyTime(), book.stageEnd(), book.recovery(), book.result())
        .flatMap(List::stream)
        .forEach(
            rule -> {
              texts.add(rule.why());
              texts.add(rule.instruction());
            });
    walk.cues().forEach(cue -> texts.add(cue.say()));
    walk.assessment().estimates().forEach(line -> texts.add(line.assumes()));
    walk.assessment().estimates().forEach(line -> texts.addAll(line.cautions()));
    texts.remove("");
    return texts;
  }

  @ParameterizedTest
  @ValueSource(strings = {"es", "de"})
  void everythingThatIsAskedOrToldIsTranslated(String language) {
    Set<String> texts = asked(LIBRARY.protocol(WALK));
    assertThat(texts).hasSizeGreaterThan(50);
    assertThat(texts).allSatisfy(text -> assertThat(in(language).text(text)).isNotEqualTo(text));
    Set<String> names = new TreeSet<>(LIBRARY.protocol(WALK).instruments().signals().keySet());
    names.addAll(LIBRARY.protocol(WALK).instruments().signs().keySet());
    names.addAll(LIBRARY.protocol(WALK).instruments().questions().keySet());
    names.addAll(LIBRARY.protocol(WALK).settings().keySet());
    LIBRARY.protocol(WALK).stages().forEach(stage -> names.add(stage.id()));
    assertThat(names).allSatisfy(name -> assertThat(in(language).name(name)).isNotEqualTo(name));
  }

  private static SourceFile words(String... lines) {
    return SourceFile.of(
        "words.yaml",
        "format: 1\nkind: words\nid: probe-words\nversion: 1.0.0\ntitle: Words\n"
            + String.join("\n", lines)
            + "\n");
  }

  @Test
  void aWordWhoseOriginalIsGoneIsNamedAndStopsNothing() {
    Library more =
        LIBRARY.and(
            List.of(
                words(
                    "language: es",
                    "for: [adult-readiness, adult-redness]",
                    "names: { unwell_todey: malestar }",
                    "texts: { \"Pregnant\": \"¿Embarazada?\" }")));
    assertThat(more.leftOverWords()).hasSize(3);
    assertThat(more.leftOverWords().toString())
        .contains("words.yaml:8:10: there is no name called unwell_todey")
        .contains("did you mean unwell_today?")
        .contains("there is no file called adult-redness", "did you mean adult-readiness?")
        .contains("there is no text called Pregnant");
    assertThat(more.language(WALK, Locale.forLanguageTag("es")).text("Pregnant?"))
        .isEqualTo("¿Embarazada?");
  }

  @Test
  void noBundledWordIsLeftOver() {
    assertThat(LIBRARY.leftOverWords()).isEmpty();
  }

  @Test
  void wordsOfAnotherLanguageThanThoseOfTheEngineAreRefused() {
    assertThatThrownBy(() -> LIBRARY.and(List.of(words("language: fr", "for: adult-readiness"))))
        .hasMessageContaining("fr is not a language that words can be in")
        .hasMessageContaining("write language: es or language: de");
  }

  // A record made before a translation was added goes on after it.
  @Test
  void aTranslationChangesNoFingerprint() {
    Library more =
        LIBRARY.and(
            List.of(
                words(
                    "language: es",
                    "for: cycle-25w-steps",
                    "names: { power: potencia de pedaleo }")));
    for (String id : List.of(WALK, "cycle-25w-steps")) {
      assertThat(more.protocol(id).heading().digest())
          .isEqualTo(LIBRARY.protocol(id).heading().digest());
    }
    Locale spanish = Locale.forLanguageTag("es");
    assertThat(more.language("cycle-25w-steps", spanish).name("power"))
        .isEqualTo("potencia de pedaleo");
    assertThat(more.language(WALK, spanish).name("power")).isEqualTo("potencia");
  }
}
