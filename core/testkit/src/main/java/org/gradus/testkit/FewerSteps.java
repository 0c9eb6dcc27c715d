package org.gradus.testkit;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import net.jqwik.api.Shrinkable;
import net.jqwik.api.ShrinkingDistance;

/** A script that shrinks by leaving steps out: long stretches first, then single ones. */
final class FewerSteps implements Shrinkable<TestScript> {

  private final TestScript script;

  FewerSteps(TestScript script) {
    this.script = script;
  }

  @Override
  public TestScript value() {
    return script;
  }

  @Override
  public Stream<Shrinkable<TestScript>> shrink() {
    int size = script.steps().size();
    return Stream.iterate(
            (size + 1) / 2, width -> width > 0, width -> width == 1 ? 0 : (width + 1) / 2)
        .flatMap(this::without);
  }

  // From the end on: what comes after the failure goes first.
  private Stream<Shrinkable<TestScript>> without(int width) {
    int size = script.steps().size();
    return IntStream.rangeClosed(1, (size + width - 1) / width)
        .mapToObj(
            i -> {
              List<Step> steps = new ArrayList<>(script.steps());
              int from = Math.max(0, size - i * width);
              steps.subList(from, Math.min(size, from + width)).clear();
              return new FewerSteps(script.with(steps));
            });
  }

  @Override
  public ShrinkingDistance distance() {
    return ShrinkingDistance.of(script.steps().size());
  }
}
