package org.gradus.session;

import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/**
 * A value that is worked out when somebody first asks for it. It may be shared by threads: two that
 * ask at the same time may both work it out, and get equal values.
 *
 * @param <T> an immutable value
 */
final class OnceAsked<T> implements Supplier<T> {

  private final Supplier<T> source;
  private volatile @Nullable T value;

  /**
   * @param source gives an equal value whenever it is asked
   */
  OnceAsked(Supplier<T> source) {
    this.source = source;
  }

  @Override
  public T get() {
    T found = value;
    if (found == null) {
      found = source.get();
      value = found;
    }
    return found;
  }
}
