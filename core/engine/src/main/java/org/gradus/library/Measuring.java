package org.gradus.library;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.protocol.Scale;
import org.gradus.unit.Quantity;

/** Checks that what is measured exists: the signals and scales that lines of schedules name. */
final class Measuring {

  private final Draft draft;
  private final Problems problems;

  Measuring(Draft draft, Problems problems) {
    this.draft = draft;
    this.problems = problems;
  }

  /** Whether all of it exists; what does not is noted. */
  boolean check() {
    int before = problems.count();
    List<MeasureDraft> lines = new ArrayList<>(draft.measure);
    draft.recovery.ifPresent(recovery -> lines.addAll(recovery.measure()));
    Set<String> given = new HashSet<>();
    lines.forEach(line -> line.named().map(Scalar::value).ifPresent(given::add));
    for (MeasureDraft line : lines) {
      line.read().forEach(name -> read(name, given));
      line.scale().ifPresent(scale -> scale(scale, line.read().get(0)));
    }
    draft.baselines.forEach(line -> line.read().forEach(this::signal));
    onceInAStage();
    draft.scales.values().forEach(scale -> signal(scale.where(), scale.value().of()));
    draft.scales.values().forEach(this::fits);
    draft
        .signals
        .values()
        .forEach(
            signal -> signal.value().below().ifPresent(other -> signal(signal.where(), other)));
    return problems.count() == before;
  }

  // Rules read a signal by its first line; a second one would ask for readings that nobody looks
  // at.
  private void onceInAStage() {
    ReadIn stages = new ReadIn(draft, new Problems());
    List<String> all = draft.stages.stream().map(StageDraft::id).distinct().toList();
    Set<String> read = new HashSet<>();
    for (MeasureDraft line : draft.measure) {
      List<String> in = line.in().isEmpty() ? all : stages.stages(line.in());
      for (Scalar signal : line.read()) {
        boolean again = false;
        for (String stage : in.isEmpty() ? List.of("") : in) {
          again |= !read.add(stage + " " + signal.value());
        }
        if (again && line.named().isEmpty()) {
          problems.add(signal.span(), Code.G306, "the reading " + signal.value());
        }
      }
    }
  }

  // A step of a scale that its signal cannot have could be asked for and never be told.
  private void fits(Placed<Scale> placed) {
    Scale scale = placed.value();
    Optional.ofNullable(draft.signals.get(scale.of()))
        .flatMap(signal -> signal.value().range())
        .filter(range -> !range.holds(scale.low()) || !range.holds(scale.high()))
        .ifPresent(
            range ->
                problems.add(
                    placed.where(),
                    Code.G305,
                    scale.name()
                        + " of "
                        + Quantity.plain(scale.low())
                        + " to "
                        + Quantity.plain(scale.high()),
                    "possible for " + scale.of() + ", which has " + range,
                    "give the signal a range that holds the scale"));
  }

  // A name that as gives to a reading is no signal that could be read.
  private void read(Scalar name, Set<String> given) {
    boolean own = given.contains(name.value()) && !draft.signals.containsKey(name.value());
    if (own && !draft.torn) {
      String help = problems.help(name.value(), draft.signals.keySet(), "read a signal");
      problems.add(name.span(), Code.G309, "signal", name.value(), help);
    } else {
      signal(name);
    }
  }

  private void signal(Scalar name) {
    signal(name.span(), name.value());
  }

  private void signal(Span where, String name) {
    missing(where, "signal", name, draft.signals, "declare it under signals, or give its choices");
  }

  private void scale(Scalar name, Scalar read) {
    missing(name.span(), "scale", name.value(), draft.scales, "declare it under scales");
    Optional<Scale> scale = Optional.ofNullable(draft.scales.get(name.value())).map(Placed::value);
    boolean known = draft.signals.containsKey(read.value());
    if (known
        && scale
            .filter(found -> draft.signals.containsKey(found.of()))
            .filter(found -> !found.of().equals(read.value()))
            .isPresent()) {
      String of = "it is a scale of " + scale.orElseThrow().of();
      problems.add(name.span(), Code.G305, name.value(), "a scale of " + read.value(), of);
    }
  }

  private void missing(
      Span where, String what, String name, Map<String, ?> known, String otherwise) {
    boolean passedOver = draft.torn || draft.faulty.contains(name);
    if (!passedOver && !known.containsKey(name)) {
      String help = problems.help(name, known.keySet(), otherwise);
      problems.add(where, Code.G309, what, name, help);
    }
  }
}
