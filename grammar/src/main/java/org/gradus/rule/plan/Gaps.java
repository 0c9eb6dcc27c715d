package org.gradus.rule.plan;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** Finds what has to become known for an unknown node to be known. */
final class Gaps {

  private final Frame frame;
  private final Set<Gap> found = new LinkedHashSet<>();

  private Gaps(Frame frame) {
    this.frame = frame;
  }

  static List<Gap> of(Planned root, Frame frame) {
    Gaps gaps = new Gaps(frame);
    gaps.collect(root);
    return new ArrayList<>(gaps.found);
  }

  private void collect(Planned node) {
    if (!node.isUnknown(frame)) {
      return;
    }
    if (node instanceof NumberNode.Definition definition) {
      alternatives(definition.term().name(), definition.alternatives());
    } else if (node instanceof TruthNode.Definition definition) {
      alternatives(definition.term().name(), definition.alternatives());
    } else if (node instanceof NumberNode.Choice choice) {
      choice(choice.condition(), choice.whenTrue(), choice.whenFalse(), node);
    } else if (node instanceof TruthNode.Choice choice) {
      choice(choice.condition(), choice.whenTrue(), choice.whenFalse(), node);
    } else {
      inside(node);
    }
  }

  private void alternatives(String name, Alternatives alternatives) {
    Alternatives.Line chosen = alternatives.chosen(frame);
    Planned value = chosen == null ? null : chosen.value();
    if (value != null) {
      collect(value);
    } else {
      alternatives
          .open(frame)
          .ifPresentOrElse(
              line -> line.when().forEach(this::collect),
              () -> found.add(Gap.never(name, Gap.Cause.NONE)));
    }
  }

  // Where the condition is known the other branch does not matter.
  private void choice(TruthNode condition, Planned whenTrue, Planned whenFalse, Planned node) {
    byte answer = condition.truth(frame);
    if (answer == Truth.OPEN) {
      inside(node);
    } else {
      collect(answer == Truth.YES ? whenTrue : whenFalse);
    }
  }

  // All that it rests on is known and still it has no value: there is none for these numbers.
  private void inside(Planned node) {
    boolean lacks = false;
    for (int slot : node.slots()) {
      if (!frame.isKnown(slot)) {
        lacks = true;
        found.add(frame.gap(slot));
      }
    }
    for (Planned part : node.parts()) {
      lacks |= part.isUnknown(frame);
      collect(part);
    }
    if (!lacks) {
      String text = node.syntax().span().inOneLine();
      boolean table = node instanceof NumberNode.Lookup;
      found.add(Gap.never(text, table ? Gap.Cause.OUT_OF_RANGE : Gap.Cause.UNDEFINED));
    }
  }
}
