package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A misspelt key is reported once, and what is wrong below it in the same run. */
class MisspeltKeysTest {

  private static final String WALK = "graded-walk-standard";
  // A key at the top of a file, with all that stands below it.
  private static final Pattern TOP = Pattern.compile("(?m)^([a-z_]+):.*\\n(?:(?: .*| *|#.*)\\n)*");
  private static final Pattern SOURCE = Pattern.compile("source: [a-z0-9-]+");

  @ParameterizedTest
  @ValueSource(
      strings = {
        "graded-walk-standard.yaml",
        "adult-stop-signs.yaml",
        "walking-recovery.yaml",
        "common-equations.yaml",
        "age-predicted-maxima.yaml"
      })
  void atTheTopOfAFileItHidesNothing(String name) {
    SourceFile file = Parts.named(name);
    Matcher keys = TOP.matcher(file.text());
    int faulty = 0;
    while (keys.find()) {
      String block = keys.group();
      String key = keys.group(1);
      Matcher source = SOURCE.matcher(block);
      String fault = source.find() ? source.replaceFirst("source: unwritten") : block;
      List<String> below = problems(name, file.text().replace(block, fault));
      faulty += below.isEmpty() ? 0 : 1;
      List<String> all = new ArrayList<>(List.of("G302 " + key + "e"));
      all.addAll(below);
      String misspelt = key + "e" + fault.substring(key.length());
      assertThat(problems(name, file.text().replace(block, misspelt)))
          .as(key)
          .containsExactlyInAnyOrderElementsOf(all);
    }
    assertThat(faulty).isPositive();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "\nstages:|\nstagess:|lasts: 3 min, speed: 2.5|lats: 3 min, speed: 2.5|2.5 mph|2.5 mmHg",
        "\nestimates:|\nestimate:|    only_when: |    onlywhen: |not ever(handrail)|not never(handrail)",
        "\nsettings:|\nsetings:|    range: 4 bpm|    rnge: 4 bpm|4 bpm to 6 bpm|4 bpm to 6 kg"
      })
  void severalOneBelowTheOtherHideNothing(String slips) {
    String[] parts = slips.split("\\|", -1);
    String text = Parts.named(WALK + ".yaml").text();
    for (int i = 0; i < parts.length; i += 2) {
      assertThat(text).contains(parts[i]);
      text = text.replaceFirst(Pattern.quote(parts[i]), parts[i + 1]);
    }
    assertThat(problems(WALK + ".yaml", text))
        .hasSize(3)
        .filteredOn(p -> p.startsWith("G302"))
        .hasSize(2);
  }

  private static List<String> problems(String name, String text) {
    List<SourceFile> files =
        Parts.of(WALK).stream()
            .map(file -> file.name().equals(name) ? SourceFile.of(name, text) : file)
            .toList();
    try {
      Library.of(files);
      return List.of();
    } catch (FileRefused refused) {
      return refused.diagnostics().stream()
          .map(found -> found.code() + " " + found.where().text())
          .toList();
    }
  }
}
