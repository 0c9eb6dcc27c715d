package org.gradus.examples.workbench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What starts the workbench: one script for each kind of shell, and the file both hand to Java. */
class StartersTest {

  @TempDir private Path folder = Path.of("");

  private static List<String> found(String file, String pattern) throws IOException {
    String text = Files.readString(Path.of(file)).replace("\r\n", "\n");
    return Pattern.compile(pattern).matcher(text).results().map(MatchResult::group).toList();
  }

  // Whichever of them is changed alone, one of these says so.
  @Test
  void bothStartersBuildSayAndStartTheSame() throws IOException {
    for (String pattern :
        List.of(
            "mvn -q .* package",
            "The workbench has to be built once, .*found\\.",
            "Building the workbench; .*fetched\\.",
            "The workbench needs Java .*found\\.",
            "exit (?:/b )?3\\b")) {
      assertThat(found("workbench", pattern)).as(pattern).isNotEmpty();
      assertThat(found("workbench.cmd", pattern).stream().map(one -> one.replace("/b ", "")))
          .as(pattern)
          .containsExactlyElementsOf(found("workbench", pattern));
    }
    assertThat(found("workbench", "start=\\$here/(.*)"))
        .containsExactly("start=$here/target/start");
    assertThat(found("workbench", "java \"@.*")).containsExactly("java \"@$start\" \"$@\"");
    assertThat(found("workbench.cmd", "\"start=.*\""))
        .containsExactly("\"start=%here%target\\start\"");
    assertThat(found("workbench.cmd", "java \"@.*")).containsExactly("java \"@%start%\" %*");
    assertThat(Files.readString(Path.of("pom.xml"))).contains("${project.build.directory}/start<");
  }

  // The file that is handed to Java holds whole paths, which a folder that was moved or copied
  // leaves behind: the shell compares the folder it was built in.
  @Test
  void aFolderThatWasMovedIsBuiltAgain() throws Exception {
    Path moved = Files.createDirectories(folder.resolve("moved/examples/workbench"));
    Path starter = Files.copy(Path.of("workbench"), moved.resolve("workbench"));
    assumeTrue(starter.toFile().setExecutable(true) && Files.exists(Path.of("/bin/sh")));
    Files.createDirectories(moved.resolve("target"));
    Files.writeString(moved.resolve("target/start"), "--version\n");
    Files.writeString(moved.resolve("target/built-in"), folder.resolve("elsewhere") + "\n");
    // No mvn on the path: whoever would build says so.
    assertThat(shell(starter)).startsWith("The workbench has to be built once");
    Files.writeString(moved.resolve("target/built-in"), moved.toRealPath() + "\n");
    assertThat(shell(starter)).doesNotContain("has to be built");
    Files.delete(moved.resolve("target/built-in"));
    assertThat(shell(starter)).startsWith("The workbench has to be built once");
  }

  // A folder that was renamed would never be found newer.
  @Test
  void whatIsLookedAtForChangesExists() throws IOException {
    String starter = Files.readString(Path.of("workbench"));
    List<String> places =
        Pattern.compile("\"\\$top/([^\"]+)\"")
            .matcher(starter)
            .results()
            .map(r -> r.group(1))
            .toList();
    assertThat(places)
        .hasSizeGreaterThan(3)
        .allMatch(place -> Files.exists(Path.of("../..", place)));
  }

  // With the tools a shell has and Java, but without Maven.
  private String shell(Path starter) throws Exception {
    Path bin = Files.createDirectories(folder.resolve("bin"));
    for (String tool : List.of("sh", "env", "cat", "cut", "dirname", "find", "head", "stty")) {
      for (String place : List.of("/bin/", "/usr/bin/")) {
        if (Files.exists(Path.of(place + tool)) && !Files.exists(bin.resolve(tool))) {
          hand(bin.resolve(tool), place + tool);
        }
      }
    }
    Path java = Path.of(System.getProperty("java.home"), "bin", "java");
    if (!Files.exists(bin.resolve("java"))) {
      hand(bin.resolve("java"), java.toString());
    }
    ProcessBuilder builder =
        new ProcessBuilder("/bin/sh", starter.toString()).redirectErrorStream(true);
    builder.environment().put("PATH", bin.toString());
    Process process = builder.start();
    String text = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    process.waitFor();
    return text;
  }

  private static void hand(Path file, String tool) throws IOException {
    Files.writeString(file, "#!/bin/sh\nexec \"" + tool + "\" \"$@\"\n");
    assumeTrue(file.toFile().setExecutable(true));
  }

  // From memory: with other line ends that shell may not find a label.
  @Test
  void theOneForWindowsHasItsLineEnds() throws IOException {
    String text = Files.readString(Path.of("workbench.cmd"));
    assertThat(text.replace("\r\n", "")).doesNotContain("\r", "\n");
    assertThat(found("workbench.cmd", "goto \\w+")).containsExactly("goto built");
    assertThat(found("workbench.cmd", "\n:\\w+")).containsExactly("\n:built");
  }

  private String started(Path start, String argument) throws Exception {
    Path java = Path.of(System.getProperty("java.home"), "bin", "java");
    Process process =
        new ProcessBuilder(java.toString(), "@" + start, argument)
            .redirectErrorStream(true)
            .start();
    String text = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    process.waitFor();
    return text;
  }

  // Java started by such a file has to write the same file again.
  @Test
  void javaStartsByTheFileWhateverTheFolderIsCalled() throws Exception {
    String odd = folder.resolve("a folder #1 \"of\" mine\\new").toString();
    String text =
        StartFile.text(
            System.getProperty("java.class.path") + System.getProperty("path.separator") + odd);
    Path start = Files.writeString(folder.resolve("start here"), text);
    assertThat(started(start, "list")).contains("graded-walk-standard");
    Path writer =
        Files.writeString(
            folder.resolve("writer"),
            text.replace(Workbench.class.getName(), StartFile.class.getName()));
    Path again = folder.resolve("again");
    assertThat(started(writer, again.toString())).isEmpty();
    assertThat(Files.readString(again)).isEqualTo(text);
  }
}
