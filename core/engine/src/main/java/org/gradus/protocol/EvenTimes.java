package org.gradus.protocol;

import java.time.Duration;
import java.util.AbstractList;
import java.util.Objects;
import java.util.RandomAccess;

/**
 * Evenly spaced times, in order. They are computed when they are asked for, because a long wait has
 * very many of them.
 */
final class EvenTimes extends AbstractList<Duration> implements RandomAccess {

  private final Duration first;
  private final long everyMillis;
  private final int size;

  EvenTimes(Duration first, Duration every, int size) {
    this.first = first;
    this.everyMillis = every.toMillis();
    this.size = size;
  }

  @Override
  public Duration get(int place) {
    // In whole numbers: to multiply a duration takes a hundred times as long.
    return first.plusMillis(everyMillis * Objects.checkIndex(place, size));
  }

  @Override
  public int size() {
    return size;
  }
}
