package org.gradus.examples.quickstart;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** A host may run Gradus as named modules. */
class ModulePathTest {

  // One class of each module, and of each library that they require.
  private static final List<String> CLASSES =
      List.of(
          "org.gradus.examples.quickstart.Quickstart",
          "org.gradus.bundled.Bundled",
          "org.gradus.library.Library",
          "org.gradus.unit.Unit",
          "org.antlr.v4.runtime.Lexer",
          "org.apache.commons.math3.util.FastMath",
          "org.snakeyaml.engine.v2.api.Load");

  @Test
  void theRecordedTestIsPlayedAlikeOnTheModulePath() throws Exception {
    List<String> places = new ArrayList<>();
    for (String name : CLASSES) {
      Path place =
          Path.of(Class.forName(name).getProtectionDomain().getCodeSource().getLocation().toURI());
      places.add(place.toString());
    }
    // Only Maven compiles the module declarations; a jar or target/classes is its work.
    assumeTrue(Path.of(places.get(0)).endsWith("target/classes"), "compiled without Maven");
    Path recording = Path.of("recorded-test.yaml");
    Process process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Dstdout.encoding=UTF-8",
                "-Dfile.encoding=UTF-8",
                "--module-path",
                String.join(System.getProperty("path.separator"), places),
                "--module",
                "org.gradus.examples.quickstart/org.gradus.examples.quickstart.Quickstart",
                recording.toString())
            .redirectErrorStream(true)
            .start();
    String output = new String(process.getInputStream().readAllBytes(), UTF_8);
    assertThat(process.waitFor()).as(output).isZero();
    assertThat(output.stripTrailing())
        .isEqualToNormalizingNewlines(
            Quickstart.play(RecordedTest.of(Files.readString(recording))).stripTrailing());
  }
}
