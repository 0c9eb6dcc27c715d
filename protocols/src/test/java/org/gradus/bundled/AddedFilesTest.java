package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.NotFound;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.junit.jupiter.api.Test;

/** Files that are added to a library, and libraries of some protocols. */
class AddedFilesTest {

  private static final Library LIBRARY = Bundled.library();

  private static SourceFile copy(String id, String from, String to) {
    String text =
        LIBRARY.files().stream()
            .filter(file -> file.name().equals("graded-walk-standard.yaml"))
            .findFirst()
            .orElseThrow()
            .text();
    return SourceFile.of(id + ".yaml", text.replace(from, to));
  }

  @Test
  void whatAFileDoesNotConcernIsNotCheckedAgain() {
    SourceFile own = copy("own-walk", "id: graded-walk-standard", "id: own-walk");
    Library more = LIBRARY.and(List.of(own));
    assertThat(more.protocols()).contains("own-walk").containsAll(LIBRARY.protocols());
    for (String id : LIBRARY.protocols()) {
      assertThat(more.protocol(id)).isSameAs(LIBRARY.protocol(id));
    }
    assertThat(more.filesOf("own-walk")).contains(own);
    assertThat(LIBRARY.protocols()).doesNotContain("own-walk");
    // What is added later still finds what was added before.
    SourceFile second = copy("own-second", "id: graded-walk-standard", "id: own-second");
    assertThat(more.and(List.of(second)).protocol("own-walk")).isSameAs(more.protocol("own-walk"));
  }

  // An equation may be the one that a protocol takes.
  @Test
  void aFileOfEquationsConcernsEveryProtocol() {
    SourceFile equations =
        SourceFile.of(
            "own-equations.yaml",
            "format: 1\nkind: equations\nid: own-equations\nversion: 1.0.0\ntitle: None yet\n");
    Library more = LIBRARY.and(List.of(equations));
    for (String id : LIBRARY.protocols()) {
      assertThat(more.protocol(id)).isNotSameAs(LIBRARY.protocol(id));
      assertThat(more.protocol(id).heading().fingerprint())
          .isEqualTo(LIBRARY.protocol(id).heading().fingerprint());
    }
  }

  @Test
  void anIdThatIsThereAlreadyAndAFaultAreRefused() {
    SourceFile same = copy("another", "nothing of this", "");
    assertThatThrownBy(() -> LIBRARY.and(List.of(same)))
        .isInstanceOf(FileRefused.class)
        .hasMessageContaining("protocol graded-walk-standard (also in graded-walk-standard.yaml)");
    SourceFile faulty = copy("own-walk", "id: graded-walk-standard", "id: own-walk\nnaem: x");
    assertThatThrownBy(() -> LIBRARY.and(List.of(faulty)))
        .isInstanceOf(FileRefused.class)
        .hasMessageContaining("naem");
  }

  @Test
  void aLibraryOfSomeProtocolsHoldsThemAsTheWholeOneDoes() {
    Library some = Bundled.library("graded-walk-standard", "step-3min-41cm");
    assertThat(some.protocols()).containsExactly("graded-walk-standard", "step-3min-41cm");
    for (String id : some.protocols()) {
      assertThat(some.protocol(id).heading()).isEqualTo(LIBRARY.protocol(id).heading());
    }
    assertThat(some.norms()).hasSameSizeAs(LIBRARY.norms());
    assertThat(some.equations()).isEqualTo(LIBRARY.equations());
    SourceFile own = copy("own-walk", "id: graded-walk-standard", "id: own-walk");
    assertThat(some.and(List.of(own)).protocols())
        .containsExactly("graded-walk-standard", "own-walk", "step-3min-41cm");
  }

  @Test
  void anIdThatIsNotThereIsNamed() {
    assertThatThrownBy(() -> Bundled.library("graded-walk-standart"))
        .isInstanceOf(NotFound.class)
        .hasMessageContaining("graded-walk-standard");
  }
}
