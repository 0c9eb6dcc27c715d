package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Times.at;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.gradus.library.Library;
import org.gradus.protocol.Person.Sex;
import org.gradus.report.Report;
import org.gradus.session.Phase;
import org.gradus.session.Session;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The report in a real browser. Skipped where there is none: {@code apt-get install chromium}, or
 * name one with {@code -Dbrowser=PATH}. A measuring script is put into a copy of the page, since a
 * report has none of its own.
 */
class BrowserTest {

  private static final List<String> USUAL =
      List.of("/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome");

  /** Writes what a reader would notice into the title: sideways scrolling and texts cut off. */
  private static final String MEASURE =
      """
      <script>
      const page = document.documentElement;
      const inside = [...document.querySelectorAll('svg text')].every(text => {
        const b = text.getBoundingClientRect();
        const svg = text.closest('svg').getBoundingClientRect();
        return b.left >= svg.left - 1 && b.right <= svg.right + 1
          && b.top >= svg.top - 1 && b.bottom <= svg.bottom + 1; });
      document.title = 'wider than the window: ' + (page.scrollWidth > page.clientWidth)
        + ', labels inside: ' + inside
        + ', sections: ' + document.querySelectorAll('section').length
        + ', style: ' + getComputedStyle(document.querySelector('.answer')).fontWeight;
      </script>
      </body>""";

  @TempDir Path folder;

  private static Optional<String> browser() {
    return Stream.concat(Stream.ofNullable(System.getProperty("browser")), USUAL.stream())
        .filter(path -> Files.isExecutable(Path.of(path)))
        .findFirst();
  }

  private static String html() {
    Library library = Bundled.library();
    return Report.of(Walked.walk(Walked.person(46, Sex.FEMALE, 71).build(), 116, 136))
        .identity("No. 17")
        .norms(library.norms())
        .bands(library.bands("bands-2011"))
        .html();
  }

  @Test
  void aPhoneAndADeskShowItWithoutSidewaysScrolling() throws Exception {
    assumeTrue(
        browser().isPresent(), "no browser: install chromium, or name one by -Dbrowser=PATH");
    String measured = html().replaceAll("<meta http-equiv=[^>]*>", "").replace("</body>", MEASURE);
    Path page = Files.writeString(folder.resolve("report.html"), measured);
    for (String size : List.of("500,900", "1280,900")) {
      String dom = run("--window-size=" + size, "--dump-dom", page.toUri().toString());
      assertThat(dom)
          .as("at %s", size)
          .contains(
              "<title>wider than the window: false, labels inside: true, sections: 15, style: 700");
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {2, 3})
  void aWholeTestTakesFourPagesOfEitherPaperAtMost(int stages) throws Exception {
    assumeTrue(
        browser().isPresent(), "no browser: install chromium, or name one by -Dbrowser=PATH");
    for (String size : List.of("A4", "Letter")) {
      String html = recovered(stages).replace("@page {", "@page { size: " + size + ";");
      Path page = Files.writeString(folder.resolve("report.html"), html);
      Path paper = folder.resolve("report.pdf");
      run("--no-pdf-header-footer", "--print-to-pdf=" + paper, page.toUri().toString());
      String pdf = Files.readString(paper, StandardCharsets.ISO_8859_1);
      assertThat(pdf).startsWith("%PDF");
      assertThat(Pattern.compile("/Type /Page\\b(?!s)").matcher(pdf).results().count())
          .as("pages of %s", size)
          .isBetween(2L, 4L);
    }
  }

  /** A walk with all that is asked for, through to the end of recovery. */
  private static String recovered(int stages) {
    Library library = Bundled.library();
    double[] rates = stages == 2 ? new double[] {116, 136} : new double[] {112, 126, 140};
    Session walk = Walked.walk(Walked.person(46, Sex.FEMALE, 71).build(), rates);
    int end = 3 * stages;
    for (int minute = 1; minute <= 5; minute++) {
      walk.record(at(end + minute - 1 + ":45"), pressure(136 - 4 * minute, 80));
      walk.record(at(end + minute + ":00"), heartRate(114 - 6 * minute));
    }
    walk.follow(walk.decide(at(end + 5 + ":00")));
    assertThat(walk.phase()).isEqualTo(Phase.ENDED);
    return Report.of(walk)
        .identity("No. 17")
        .date("3 May 2026, 10:15")
        .place("Room 3")
        .tester("A. B.")
        .norms(library.norms())
        .bands(library.bands("bands-2011"))
        .html();
  }

  private String run(String... arguments) throws IOException, InterruptedException {
    List<String> command = new ArrayList<>();
    command.add(browser().orElseThrow());
    command.addAll(
        List.of(
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            "--disable-quic",
            "--no-first-run",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync",
            "--user-data-dir=" + folder.resolve("profile")));
    command.addAll(List.of(arguments));
    Path out = folder.resolve("out.txt");
    Process process =
        new ProcessBuilder(command)
            .redirectOutput(out.toFile())
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    boolean ended = process.waitFor(90, TimeUnit.SECONDS);
    process.destroyForcibly();
    assertThat(ended).as("the browser ended").isTrue();
    return Files.readString(out);
  }
}
