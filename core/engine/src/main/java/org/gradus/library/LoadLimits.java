package org.gradus.library;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.internal.reach.LoadScene;
import org.gradus.library.StageDraft.LoadDraft;
import org.gradus.protocol.Brake;
import org.gradus.protocol.LoadRange;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Stage;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Cell;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Unit;

/**
 * Proves that whatever a stage can set lies within what the file says is possible for that load:
 * for every person, answer and value of a setting, and after any load that was set by hand. So a
 * running test need not check these loads again.
 */
final class LoadLimits {

  private final Draft draft;
  private final Shelf shelf;
  private final Protocol protocol;
  private final Problems problems;
  // The stages of a series stand in one place; the first that leads too far is told.
  private final Set<Span> told = new HashSet<>();

  LoadLimits(Draft draft, Shelf shelf, Protocol protocol, Problems problems) {
    this.draft = draft;
    this.shelf = shelf;
    this.protocol = protocol;
    this.problems = problems;
  }

  void check() {
    if (draft.loads.isEmpty() || !draft.isWhole("loads", "stages", "recovery")) {
      return;
    }
    OpenLoads open = OpenLoads.of(draft, shelf, protocol);
    LoadScene scene = new LoadScene(protocol, open.layout());
    for (Stage stage : protocol.stages()) {
      int place = stage.place();
      stage(draft.stages.get(place), open.exercise().get(place), scene, scene.start(stage));
    }
    List<StageDraft> recovery = draft.recovery.map(RecoveryDraft::stages).orElse(List.of());
    for (int place = 0; place < recovery.size(); place++) {
      stage(recovery.get(place), open.recovery().get(place), scene, scene.recovery());
    }
  }

  private void stage(StageDraft stage, List<Stage.Load> loads, LoadScene scene, Box start) {
    Box box = start;
    List<Found> found = new ArrayList<>();
    for (Stage.Load load : loads) {
      LoadDraft written =
          stage.loads().stream()
              .filter(l -> l.name().equals(load.name()))
              .findFirst()
              .orElseThrow();
      Cell.Range begins = load.value().range(box);
      found.add(new Found(load.name(), written.value(), begins, load.unit()));
      if (load.ramp().isPresent() && written.ramp().isPresent()) {
        // In between it moves from one end to the other and never beyond.
        Cell.Range to = load.ramp().get().to().range(box);
        found.add(new Found(load.name(), written.ramp().get().to(), to, load.unit()));
      }
      box = scene.with(load, begins, box);
    }
    found.addAll(forces(found));
    found.forEach(each -> within(stage, each));
  }

  /**
   * What a component could come to.
   *
   * @param name the component
   * @param text where it is written
   * @param values from the least to the greatest
   * @param unit the unit to tell it in
   */
  private record Found(String name, Expression text, Cell.Range values, Unit unit) {}

  // The force that makes a power grows with it, and with a slower cadence.
  private List<Found> forces(List<Found> found) {
    List<Found> rates =
        found.stream().filter(each -> each.name().equals(Brake.PEDAL_RATE)).toList();
    // To a cadence that changes no force belongs.
    if (protocol.brake().isEmpty() || rates.size() != 1) {
      return List.of();
    }
    Cell.Range rate = rates.get(0).values();
    double slowest = rate.low() > 0 ? rate.low() : Double.MIN_NORMAL;
    return found.stream()
        .filter(each -> each.name().equals(Brake.POWER) && rate.high() > 0)
        .map(
            power ->
                new Found(
                    Brake.FORCE,
                    power.text(),
                    new Cell.Range(
                        protocol.brake().get().force(power.values().low(), rate.high()),
                        protocol.brake().get().force(power.values().high(), slowest),
                        power.values().presence()),
                    Unit.KILOPOND))
        .toList();
  }

  private void within(StageDraft stage, Found found) {
    Optional<LoadRange> possible =
        Optional.ofNullable(draft.loads.get(found.name())).map(Placed::value);
    boolean never = found.values().low() > found.values().high();
    if (possible.isEmpty() || never) {
      return;
    }
    LoadRange range = possible.get();
    boolean low = !range.isAtLeastLow(found.values().low());
    boolean high = !range.isAtMostHigh(found.values().high());
    if ((low || high) && told.add(found.text().span())) {
      problems.add(
          found.text().span(),
          Code.G412,
          "the " + found.name().replace('_', ' ') + " of " + stage.id(),
          LoadWords.values(found.values(), found.unit()),
          range.range().toString(),
          LoadWords.remedy(found.text(), range, low, high, draft));
    }
  }
}
