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
    if (node instanceof NumberNode.Slot slot) {
      missing(slot.index());
    } else if (node instanceof TruthNode.Slot slot) {
      missing(slot.index());
    } else if (node instanceof TruthNode.IsOption option) {
      missing(option.slot());
    } else if (node instanceof NumberNode.Difference difference) {
      missing(difference.now());
      missing(difference.earlier());
    } else if (node instanceof NumberNode.OnLine line) {
      missing(line.slope());
      collect(line.at());
    } else if (node instanceof NumberNode.Definition definition) {
      alternatives(definition.term().name(), definition.alternatives());
    } else if (node instanceof TruthNode.Definition definition) {
      alternatives(definition.term().name(), definition.alternatives());
    } else {
      inside(node);
    }
  }

  private void missing(int slot) {
    if (!frame.isKnown(slot)) {
      found.add(frame.gap(slot));
    }
  }

  private void alternatives(String name, Alternatives alternatives) {
    int before = found.size();
    alternatives.open(frame).ifPresent(line -> line.when().forEach(this::collect));
    Alternatives.Line chosen = alternatives.chosen(frame);
    if (chosen != null && chosen.value() != null) {
      collect(chosen.value());
    }
    if (found.size() == before) {
      found.add(Gap.never(name, Gap.Cause.NONE));
    }
  }

  // All parts known and still no value: the formula has none for these numbers.
  private void inside(Planned node) {
    boolean anyUnknown = false;
    for (Planned part : node.parts()) {
      anyUnknown |= part.isUnknown(frame);
      collect(part);
    }
    if (!anyUnknown) {
      String text = node.syntax().span().text().replaceAll("\\s+", " ");
      found.add(Gap.never(text, Gap.Cause.UNDEFINED));
    }
  }
}
