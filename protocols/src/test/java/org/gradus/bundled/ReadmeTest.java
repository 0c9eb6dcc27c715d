package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import javax.tools.JavaCompiler;
import javax.tools.ToolProvider;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What README.md shows is what happens. */
class ReadmeTest {

  private static final Path TOP = Path.of("..");

  private final String readme = read("README.md");

  private static String read(String name) {
    try {
      return Files.readString(TOP.resolve(name));
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private String block(String language, int index) {
    List<String> blocks =
        Pattern.compile("```" + language + "\n(.*?)```", Pattern.DOTALL)
            .matcher(readme)
            .results()
            .map((MatchResult block) -> block.group(1))
            .toList();
    return blocks.get(index);
  }

  @Test
  void theJavaPrintsWhatIsShown(@TempDir Path folder) throws Exception {
    String source =
        """
        import static org.gradus.protocol.Person.Sex.FEMALE;
        import static org.gradus.session.Readings.*;
        import static org.gradus.session.Times.*;
        import static org.gradus.unit.Quantities.*;
        import org.gradus.bundled.Bundled;
        import org.gradus.capacity.*;
        import org.gradus.library.Library;
        import org.gradus.protocol.*;
        import org.gradus.report.Report;
        import org.gradus.session.*;
        import org.gradus.training.*;

        public class Shown {
          public static void main(String[] arguments) {
        %s
          }
        }
        """
            .formatted(block("java", 0) + block("java", 1));
    Path file = Files.writeString(folder.resolve("Shown.java"), source);
    JavaCompiler compiler = ToolProvider.getSystemJavaCompiler();
    String classPath = System.getProperty("java.class.path");
    assertThat(
            compiler.run(
                null, null, null, "-cp", classPath, "-d", folder.toString(), file.toString()))
        .isZero();
    assertThat(printed(folder)).isEqualTo(shownAfter("prints\n") + shownAfter("which gives\n"));
  }

  private static String printed(Path folder) throws Exception {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    PrintStream before = System.out;
    try (URLClassLoader loader = new URLClassLoader(new URL[] {folder.toUri().toURL()})) {
      System.setOut(new PrintStream(bytes, true, StandardCharsets.UTF_8));
      loader
          .loadClass("Shown")
          .getMethod("main", String[].class)
          .invoke(null, (Object) new String[0]);
    } finally {
      System.setOut(before);
    }
    return bytes.toString(StandardCharsets.UTF_8);
  }

  private String shownAfter(String words) {
    int start = readme.indexOf(words + "```\n") + words.length() + "```\n".length();
    return readme.substring(start, readme.indexOf("```", start));
  }

  @Test
  void theExcerptStandsInTheFile() {
    String file = read("protocols/src/main/resources/org/gradus/bundled/graded-walk-standard.yaml");
    for (String part : block("yaml", 0).split("\n# \\.\\.\\.\n", -1)) {
      assertThat(file).contains(part.strip());
    }
  }

  @Test
  void theErrorIsTheOneThatIsReported() {
    List<SourceFile> files =
        Parts.of("graded-walk-standard").stream()
            .map(
                file ->
                    SourceFile.of(
                        file.name(),
                        file.text()
                            .replace(
                                "steady and high_enough", "steady and heart_rate >= 135 mmHg")))
            .toList();
    FileRefused refused = catchThrowableOfType(FileRefused.class, () -> Library.of(files));
    assertThat(readme).contains(refused.getMessage());
  }

  @Test
  void theCommandsAreThoseThatAreRunElsewhere() {
    assertThat(read(".ci/run")).contains("mvn -B -ntp verify");
    assertThat(readme).contains("\nmvn -B -ntp verify\n");
  }
}
