package org.gradus.bundled;

import static java.nio.charset.StandardCharsets.US_ASCII;
import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.BufferedReader;
import java.io.InputStreamReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.gradus.history.TestRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The system itself refuses to let a journal grow, in the middle of a line. */
class JournalFullTest {

  @Test
  void everyAcknowledgedEventAndNothingElseIsReadBack(@TempDir Path folder) throws Exception {
    assumeTrue(Files.isExecutable(Path.of("/bin/sh")), "a shell that limits the size of files");
    Path file = folder.resolve("walk.jsonl");
    ProcessBuilder filling = JournalOpener.process("fill", file.toString());
    List<String> command =
        new ArrayList<>(List.of("/bin/sh", "-c", "ulimit -f 64; exec \"$@\"", "-"));
    command.addAll(filling.command());
    Process writer = filling.command(command).start();
    List<String> said;
    try (BufferedReader lines =
        new BufferedReader(new InputStreamReader(writer.getInputStream(), US_ASCII))) {
      said = lines.lines().toList();
    }
    assertThat(writer.waitFor()).isZero();
    int acknowledged = said.size() + 1; // two begin the test, and the last line is the refusal
    assertThat(said.get(said.size() - 1)).matches("G607|G612");
    assertThat(acknowledged).isGreaterThan(3);
    assertThat(TestRecord.parse("walk", Files.readString(file)).entries()).hasSize(acknowledged);
  }
}
