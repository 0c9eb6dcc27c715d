package org.gradus.library;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.gradus.unit.Quantities.bpm;
import static org.gradus.unit.Quantities.mmHg;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.NotFound;
import org.gradus.diagnostic.SettingRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Setting;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A library of files, and its protocols with other settings. */
class LibraryTest {

  private static Setting setting(Protocol protocol, String name) {
    return Optional.ofNullable(protocol.settings().get(name)).orElseThrow();
  }

  private static void write(Path folder, String name, String text) throws IOException {
    Files.write(folder.resolve(name), text.getBytes(StandardCharsets.UTF_8));
  }

  @Test
  void aFolderIsReadWithoutItsCases(@TempDir Path folder) throws IOException {
    write(folder, "walk.yaml", Meadow.WALK);
    write(folder, "watch.yaml", "\uFEFF" + Meadow.WATCH);
    write(folder, "equations.yaml", Meadow.EQUATIONS);
    write(folder, "walk.cases.yaml", "not looked at: [");
    write(folder, "notes.txt", "nor this");
    Files.createDirectory(folder.resolve("folder.yaml"));
    assertThat(Library.load(folder).protocols()).containsExactly("meadow-walk");
  }

  @Test
  void aFolderMayBuildOnALibrary(@TempDir Path folder) throws IOException {
    write(folder, "own.yaml", Meadow.edit(Meadow.WALK, "id: meadow-walk", "id: own-walk"));
    Library both = Meadow.library(Meadow.WALK, Meadow.WATCH, Meadow.EQUATIONS).and(folder);
    assertThat(both.protocols()).containsExactly("meadow-walk", "own-walk");
  }

  @Test
  void anIdOfTheLibraryCannotBeTakenAgain(@TempDir Path folder) throws IOException {
    write(folder, "own.yaml", Meadow.WALK);
    Library library = Meadow.library(Meadow.WALK, Meadow.WATCH, Meadow.EQUATIONS);
    assertThatExceptionOfType(FileRefused.class)
        .isThrownBy(() -> library.and(folder))
        .satisfies(
            refused ->
                assertThat(refused.diagnostics())
                    .singleElement()
                    .satisfies(
                        problem -> {
                          assertThat(problem.where()).hasToString("own.yaml:3:5");
                          assertThat(problem.message()).contains("also in walk.yaml");
                        }));
  }

  @Test
  void bytesThatAreNoTextAreReportedWithTheProblemsOfOtherFiles(@TempDir Path folder)
      throws IOException {
    write(folder, "walk.yaml", Meadow.edit(Meadow.WALK, "grade: 5 %", "grade: 5"));
    Files.write(folder.resolve("watch.yaml"), new byte[] {'a', ':', '\n', 'b', (byte) 0xFF});
    write(folder, "equations.yaml", Meadow.EQUATIONS);
    assertThatExceptionOfType(FileRefused.class)
        .isThrownBy(() -> Library.load(folder))
        .satisfies(
            refused ->
                assertThat(refused.diagnostics())
                    .extracting(problem -> problem.code() + " " + problem.where())
                    .containsExactly("G305 walk.yaml:30:55", "G301 watch.yaml:2:2"));
  }

  @Test
  void aProtocolThatIsNotThereIsRefusedWithASuggestion() {
    Library library = Meadow.library(Meadow.WALK, Meadow.WATCH, Meadow.EQUATIONS);
    assertThatExceptionOfType(NotFound.class)
        .isThrownBy(() -> library.protocol("medow-walk"))
        .withMessageContaining("did you mean meadow-walk?");
    assertThatExceptionOfType(NotFound.class)
        .isThrownBy(() -> Library.of(List.of()).protocol("meadow-walk"))
        .withMessageContaining("holds no protocols");
  }

  @Test
  void aSettingIsChangedWithinWhatTheFileAllows() {
    Protocol walk = Meadow.walk(Meadow.WALK);
    Protocol other = walk.with("steady_band", bpm(8)).with("end_at", bpm(140));
    assertThat(setting(other, "steady_band").value()).hasToString("8 bpm");
    assertThat(setting(other, "end_at").source().key()).isEqualTo("practice");
    assertThat(setting(walk, "end_at").value()).hasToString("130 bpm");
    assertThat(setting(walk.with("mood", "brisk"), "mood").value()).hasToString("brisk");
  }

  @Test
  void aSettingThatTheFileDoesNotAllowIsRefused() {
    Protocol walk = Meadow.walk(Meadow.WALK);
    assertThatExceptionOfType(SettingRefused.class)
        .isThrownBy(() -> walk.with("steady_band", bpm(9)))
        .withMessageContaining("the file allows 4 bpm to 8 bpm");
    assertThatExceptionOfType(SettingRefused.class)
        .isThrownBy(() -> walk.with("steady_band", mmHg(5)));
    assertThatExceptionOfType(SettingRefused.class)
        .isThrownBy(() -> walk.with("end_at", bpm(135)))
        .withMessageContaining("130 bpm or 140 bpm");
    assertThatExceptionOfType(SettingRefused.class).isThrownBy(() -> walk.with("mood", "grim"));
    assertThatExceptionOfType(SettingRefused.class)
        .isThrownBy(() -> walk.with("steady_bend", bpm(5)))
        .withMessageContaining("did you mean steady_band?");
  }

  @Test
  void aChangedSettingIsCheckedLikeTheFile() {
    Protocol walk =
        Meadow.walk(Meadow.edit(Meadow.WALK, "range: 4 bpm to 8 bpm", "range: 4 bpm to 300 bpm"));
    assertThatExceptionOfType(FileRefused.class)
        .isThrownBy(() -> walk.with("steady_band", bpm(300)))
        .satisfies(refused -> assertThat(refused.code()).isEqualTo(Code.G411));
  }

  @Test
  void theFilesOfAStreamAreNamedInMessages() {
    SourceFile file =
        Library.file(
            "mine.yaml",
            new java.io.ByteArrayInputStream("format: 7".getBytes(StandardCharsets.UTF_8)));
    assertThatExceptionOfType(FileRefused.class)
        .isThrownBy(() -> Library.of(List.of(file)))
        .withMessageContaining("mine.yaml:1:9: format 7 is not known");
  }
}
