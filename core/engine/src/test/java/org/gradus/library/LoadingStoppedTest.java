package org.gradus.library;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.gradus.diagnostic.LoadingStopped;
import org.gradus.diagnostic.SourceFile;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

class LoadingStoppedTest {

  private static final SourceFile WALK = SourceFile.of("walk.yaml", Meadow.WALK);
  private static final List<SourceFile> FILES =
      List.of(
          WALK,
          SourceFile.of("watch.yaml", Meadow.WATCH),
          SourceFile.of("equations.yaml", Meadow.EQUATIONS));

  @AfterEach
  void goOn() {
    Thread.interrupted();
  }

  @Test
  void anInterruptedThreadStopsLoadingAndStaysInterrupted() {
    Library before = Library.of(FILES);
    SourceFile another =
        SourceFile.of("another.yaml", Meadow.WALK.replace("id: meadow-walk", "id: another-walk"));
    Thread.currentThread().interrupt();
    assertThatThrownBy(() -> before.and(List.of(another)))
        .isInstanceOf(LoadingStopped.class)
        .hasMessage(
            "G625: files were not read to the end: the thread was interrupted at walk.yaml; load"
                + " them again in a thread that is not interrupted, or give fewer files");
    assertThat(Thread.interrupted()).isTrue();
    assertThat(before.protocols()).containsExactly("meadow-walk");
    assertThat(before.and(List.of(another)).protocols()).contains("another-walk");
  }
}
