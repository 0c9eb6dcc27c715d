package org.gradus.protocol;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatNullPointerException;

import java.lang.reflect.Modifier;
import java.util.Arrays;
import java.util.Objects;
import org.gradus.internal.LibraryKey;
import org.gradus.library.Structures;
import org.jspecify.annotations.NullUnmarked;
import org.junit.jupiter.api.Test;

/** Nobody but a library makes a protocol, so that each one was checked and proved. */
class MadeByTheLibraryTest {

  private static final Protocol MILE = Structures.of("mile");

  @Test
  void hostsHaveNoConstructorAndNoSubclass() {
    assertThat(Modifier.isFinal(Protocol.class.getModifiers())).isTrue();
    assertThat(Protocol.class.getConstructors())
        .allSatisfy(made -> assertThat(made.getParameterTypes()).contains(LibraryKey.class));
    assertThat(Arrays.stream(Protocol.class.getMethods()).filter(this::isStatic))
        .noneMatch(method -> method.getReturnType().equals(Protocol.class));
    // The module descriptor is what closes the package to hosts; without it there is no module.
    assertThat(LibraryKey.class.getPackageName()).isEqualTo("org.gradus.internal");
  }

  private boolean isStatic(java.lang.reflect.Method method) {
    return Modifier.isStatic(method.getModifiers());
  }

  // A key cannot be left out either, which needs no name of its type.
  @Test
  @NullUnmarked
  void noKeyIsNoKey() {
    assertThatNullPointerException()
        .isThrownBy(
            () ->
                new Protocol(
                    null,
                    MILE.heading(),
                    MILE.eligibility(),
                    MILE.settings(),
                    MILE.instruments(),
                    MILE.baselines(),
                    MILE.schedule(),
                    MILE.cues(),
                    MILE.stages(),
                    MILE.rules(),
                    MILE.unmeasured(),
                    MILE.recovery(),
                    MILE.assessment(),
                    MILE.brake(),
                    MILE.wiring(),
                    MILE.notes(),
                    values -> Objects.requireNonNull(MILE)))
        .withMessage("only a library makes a protocol");
  }
}
